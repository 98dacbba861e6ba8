import { cutLayers } from '../cut-layers.ts';
import { HAND_MM } from '../fit/hand-cut.ts';
import { type RoundedPiece, roundPieces } from '../fit/round-pieces.ts';
import { at, boxOf } from '../geometry/polygon.ts';
import { compose2, rest2 } from '../geometry/rigid2.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { LaidSheet, Placement } from '../layout/layout.ts';
import { placementMotion } from '../layout/placed.ts';
import type { MadeLayer, MadeRoof } from '../make-roof.ts';
import type { Production } from '../pipeline.ts';
import type { Stock } from '../project/project.ts';
import { CUT_MM, isAtMost, isPositive, isSameLength, NOISE_MM } from '../tolerance.ts';
import { type Ruler, rulerStep } from '../units/units.ts';
import { coarseIssues, seamGaps } from './coarse.ts';
import { draftPiece } from './draft.ts';
import { layRow, type RowItem } from './lay-row.ts';
import { planStrip } from './plan-strip.ts';
import { applyPose, seenPose } from './pose.ts';
import type { SetOut, SetOutStrip, TraceTemplate, TrimStep, UpSide } from './set-out.ts';
import { templatesFor } from './template.ts';
import { type WholeTemplate, wholeTemplates } from './whole-template.ts';
import { figure, noRoomSentence, seamSentences } from './words.ts';

export interface SetOutOptions {
  /** Missing: the project's. */
  readonly ruler?: Ruler;
  /** Which side lies up; missing: the wrong side, of board its outside. */
  readonly up?: UpSide;
}

/** A piece of a sheet with what its marks are worked out from. */
export interface SheetItem extends RowItem {
  readonly placement: Placement;
  readonly layer: MadeLayer;
  /** Title of its roof. */
  readonly roof: string;
  /** What it is traced from; null where it is set out by itself. */
  readonly template: WholeTemplate | null;
}

/**
 * How a sheet of the layout is set out by ruler: straight cuts to strips first, then each strip's marks and lines, one action a
 * step. Where two sheets are alike, so are their steps. Of a sheet of a few pieces it takes
 * milliseconds, of one crowded with slivers a second and more.
 */
export function makeSetOut(production: Production, sheet: LaidSheet, options: SetOutOptions = {}): SetOut {
  const { project } = production;
  const ruler = options.ruler ?? project.ruler;
  const stock = project.stock[sheet.stock] as Stock;
  const layers = sheet.placements.map(({ roof, layer }) => layerAt(production, roof, layer));
  const up = options.up ?? (layers.every(({ spec }) => spec.as === 'board') ? 'right' : 'wrong');
  const found = sheetItems(production, sheet, ruler, up);
  const whole = wholeTemplates(found, ruler);
  const items = found.map((item): SheetItem => {
    const template = whole.get(item) ?? null;
    return { ...item, template, hold: template?.hold ?? null };
  });
  const rows = rowsOf(items, sheet);
  const step = rulerStep(ruler);
  const laid = rows.map(({ own, bottom }) => {
    const lowered = own.map((item) => lowerItem(item, bottom));
    return layRow(lowered, sheet.width, step, rows.length === 1 ? sheet.height : undefined);
  });
  const crowded = laid.flatMap((row) => row.crowded);
  const { trims, isWhole, issues: trimIssues } = trimSteps(laid, sheet, { stock, ruler });
  const seams = seamGaps(items, ruler);
  const planned = laid.map((row) => planStrip(row, { width: sheet.width, height: row.height, ruler }));
  return {
    stock: sheet.stock,
    index: sheet.index,
    ruler,
    up,
    upSentence: upSentence(
      up,
      layers.every(({ spec }) => spec.as === 'board'),
    ),
    trims,
    strips: titled(merged(planned), isWhole),
    templates: [...[...new Set(whole.values())].map(asTrace), ...templatesFor(items, planned, ruler)],
    seams,
    seamSentences: seamSentences(seams, ruler),
    issues: [...(crowded.length > 0 ? [noRoom(crowded)] : []), ...trimIssues, ...coarseIssues(items, ruler)],
  };
}

const asTrace = ({ strip, times, measures, at, marks }: WholeTemplate): TraceTemplate => ({
  strip,
  times,
  measures,
  hold: { marks, at },
});

const layerAt = ({ roofs }: Production, roof: number, layer: number): MadeLayer =>
  cutLayers(roofs[roof] as MadeRoof)[layer] as MadeLayer;

function sheetItems(production: Production, sheet: LaidSheet, ruler: Ruler, up: UpSide): readonly SheetItem[] {
  const step = rulerStep(ruler);
  return sheet.placements.map((placement): SheetItem => {
    const layer = layerAt(production, placement.roof, placement.layer);
    const own = roundPieces(layer.net, ruler)[placement.piece] as RoundedPiece;
    const draft = draftPiece(layer, placement.piece, own, step);
    const motion = compose2(placementMotion(placement), { ...rest2, move: own.origin });
    const pose = seenPose(motion, sheet.width, up === 'wrong');
    const whole = seenPose(placementMotion(placement), sheet.width, up === 'wrong');
    const { spec } = production.roofs[placement.roof] as MadeRoof;
    return {
      placement,
      layer,
      draft,
      pose,
      outline: draft.piece.outline.map((p) => applyPose(whole, p)),
      roof: spec.title,
      title: `${spec.title}: ${draft.piece.title}`,
      hold: null,
      template: null,
    };
  });
}

/** Pieces that no straight cut across the whole sheet parts, strip by strip from the bottom up. */
function rowsOf(
  items: readonly SheetItem[],
  { height }: LaidSheet,
): readonly { readonly own: readonly SheetItem[]; readonly bottom: number }[] {
  const cuts = levelCuts(items.map(({ outline }) => outline)).filter((y) => isPositive(y) && isPositive(height - y));
  const rows = new Map<number, { own: SheetItem[]; bottom: number }>();
  for (const item of items) {
    const { minY } = boxOf(item.outline);
    const below = cuts.filter((y) => isAtMost(y, minY)).length;
    const row = rows.get(below) ?? { own: [], bottom: minY };
    rows.set(below, { own: [...row.own, item], bottom: Math.min(row.bottom, minY) });
  }
  return [...rows].sort(([a], [b]) => a - b).map(([, row]) => row);
}

/** Where a straight cut across runs along an edge of a piece and through none, mm from the bottom. */
function levelCuts(rings: readonly (readonly Vec2[])[]): readonly number[] {
  const boxes = rings.map(boxOf);
  const edges = rings.flatMap((ring) =>
    ring.flatMap((p, i) => {
      const q = at(ring, i + 1);
      return isSameLength(p[1], q[1]) && distance2(p, q) >= CUT_MM ? [p[1]] : [];
    }),
  );
  const free = edges.filter((y) => boxes.every(({ minY, maxY }) => isAtMost(y, minY) || isAtMost(maxY, y)));
  const sorted = free.sort((a, b) => a - b);
  return sorted.filter((y, i) => i === 0 || !isSameLength(y, sorted[i - 1] as number));
}

const lowerItem = (item: SheetItem, by: number): SheetItem => ({
  ...item,
  pose: { ...item.pose, move: [item.pose.move[0], item.pose.move[1] - by] },
  outline: item.outline.map(([x, y]): Vec2 => [x, y - by]),
});

/** The cuts across the sheet, from its bottom up; strips of one height in a row share the setting of the stop. */
function trimSteps(
  rows: readonly { readonly height: number }[],
  sheet: LaidSheet,
  { stock: { margin }, ruler }: { readonly stock: Stock; readonly ruler: Ruler },
): { readonly trims: readonly TrimStep[]; readonly isWhole: boolean; readonly issues: readonly Issue[] } {
  const total = rows.reduce((sum, { height }) => sum + height, 0);
  const [only] = rows;
  if (rows.length === 1 && only && Math.abs(only.height - sheet.height) <= HAND_MM) {
    return { trims: [], isWhole: true, issues: [] };
  }
  const trims: TrimStep[] = [];
  if (margin > NOISE_MM) {
    const stop = Math.ceil((margin - NOISE_MM) / rulerStep(ruler)) * rulerStep(ruler);
    if (isAtMost(total + stop, sheet.height)) {
      trims.push({
        text: `Trim ${figure(stop, ruler)} off the bottom edge: the margin that is not used.`,
        stop,
        count: 1,
      });
    }
  }
  for (const { height } of rows) {
    const last = trims.at(-1);
    const count = last && last.stop === height && last.text.startsWith('Set') ? last.count + 1 : 1;
    if (count > 1) trims.pop();
    trims.push({ text: stripSentence(figure(height, ruler), count), stop: height, count });
  }
  const over = trims.reduce((sum, { stop, count }) => sum + stop * count, 0) - sheet.height;
  return { trims, isWhole: false, issues: over > HAND_MM ? [tooHigh(over)] : [] };
}

const stripSentence = (stop: string, count: number): string =>
  `Set the stop at ${stop}. Cut ${count === 1 ? 'one strip' : `${count} strips`} across the whole width, from the bottom edge up.`;

const tooHigh = (over: number): Issue => ({
  level: 'warning',
  code: 'set-out-too-high',
  path: '',
  numbers: { over },
  message: 'Rounded to marks, the strips of this sheet are together higher than it is: the last one comes out short.',
  remedy: 'Take a ruler with finer marks.',
});

const noRoom = (crowded: readonly SheetItem[]): Issue => ({
  level: 'warning',
  code: 'set-out-crowded',
  path: '',
  numbers: { pieces: crowded.length },
  message: `${noRoomSentence(crowded.map(({ roof, draft }) => [roof, draft.piece.title]))} Where they overlap, flaps or edges lose a little.`,
  remedy: 'Take a ruler with finer marks, or give the stock a gap.',
});

const upSentence = (up: UpSide, isBoard: boolean): string => {
  if (isBoard) {
    return up === 'right'
      ? 'The outside of the board is up; bevels are told as they are seen from there.'
      : 'The inside of the board is up: all is turned over left to right.';
  }
  return up === 'wrong'
    ? 'The wrong side of the paper is up, the print face down: all is turned over left to right, and mountain and valley folds have changed places.'
    : 'The printed side of the paper is up: folds are as they are seen on the roof.';
};

/** Strips that are set out in the same words, once. */
function merged(strips: readonly SetOutStrip[]): readonly SetOutStrip[] {
  const kept = new Map<string, SetOutStrip>();
  for (const strip of strips) {
    const key = [strip.width, strip.height, ...strip.steps.map(({ text }) => text)].join('\n');
    const same = kept.get(key);
    kept.set(key, same ? { ...same, times: same.times + 1, pieces: [...same.pieces, ...strip.pieces] } : strip);
  }
  return [...kept.values()];
}

const titled = (strips: readonly SetOutStrip[], isWhole: boolean): readonly SetOutStrip[] => {
  const total = strips.reduce((sum, { times }) => sum + times, 0);
  let next = 1;
  return strips.map((strip) => {
    const first = next;
    next += strip.times;
    const last = next - 1;
    const title = isWhole
      ? 'The whole sheet'
      : first === last
        ? `Strip ${first} of ${total}`
        : `Strips ${first} to ${last} of ${total}`;
    return { ...strip, title };
  });
};
