import { cutLayers } from '../../core/cut-layers.ts';
import { at, boxOf, meanPoint } from '../../core/geometry/polygon.ts';
import { rest2 } from '../../core/geometry/rigid2.ts';
import { add2, distance2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Placement } from '../../core/layout/layout.ts';
import type { MadeLayer, MadeRoof } from '../../core/make-roof.ts';
import type { Piece } from '../../core/net/net.ts';
import type { Production } from '../../core/pipeline.ts';
import type { SetOut, TraceTemplate } from '../../core/setout/set-out.ts';
import { SNAP_MM } from '../../core/tolerance.ts';
import { drawCheckBars } from '../drawing/check-bars.ts';
import { drawPiece } from '../drawing/draw-piece.ts';
import {
  type Drawing,
  joinDrawings,
  labelAt,
  labelCorners,
  line,
  moveDrawing,
  ring,
  type Stroke,
} from '../drawing/drawing.ts';
import { type Box, headingBox, textBox, titleBox } from './boxes.ts';
import { columnWidth } from './paginate.ts';

type PieceOf = Pick<Placement, 'roof' | 'layer' | 'piece'>;

interface Wanted {
  readonly of: PieceOf;
  /** How often it is traced; null: it is one piece with round lines in it. */
  readonly times: number | null;
  /** With its flaps it is laid by two corners. */
  readonly hold: TraceTemplate['hold'];
}

/**
 * Pieces at true scale, to be cut from the page or from card and traced: those that are traced with less work than they are set
 * out, and those with round lines that no ruler draws. What no page of this size holds is told instead.
 */
export function templateBoxes(
  production: Production,
  setOuts: readonly SetOut[],
  page: { readonly width: number; readonly height: number },
): readonly Box[] {
  const wanted = wantedOf(production, setOuts);
  if (wanted.length === 0) return [];
  const bars = drawCheckBars(page.width);
  return [
    { ...titleBox('Full-size templates', page.width), startsPage: true },
    textBox(
      'At true scale, seen from the printed side. Hold a ruler to the bars first; then glue the page to card, cut the template out and trace it. For the wrong side of a paper turn the template over.',
      page.width,
    ),
    { height: bars.height + 4, drawing: moveDrawing(bars.drawing, { ...rest2, move: [0, -1] }) },
    ...wanted.flatMap((one) => boxesOf(production, one, page)),
  ];
}

const layerOf = ({ roofs }: Production, { roof, layer }: PieceOf): MadeLayer =>
  cutLayers(roofs[roof] as MadeRoof)[layer] as MadeLayer;

const pieceOf = (production: Production, of: PieceOf): Piece => layerOf(production, of).net.pieces[of.piece] as Piece;

function wantedOf(production: Production, setOuts: readonly SetOut[]): readonly Wanted[] {
  const found = new Map<string, Wanted>();
  const add = ({ roof, layer, piece }: PieceOf, times: number | null, hold: Wanted['hold'] = null): void => {
    const of = { roof, layer, piece };
    const { id, same } = pieceOf(production, of);
    const key = `${roof}/${layer}/${same ?? id}`;
    const before = found.get(key)?.times ?? null;
    found.set(key, {
      of: found.get(key)?.of ?? of,
      times: times === null ? before : (before ?? 0) + times,
      hold: found.get(key)?.hold ?? hold,
    });
  };
  for (const { templates } of setOuts) {
    for (const { strip, times, hold } of templates) if (strip.pieces[0]) add(strip.pieces[0], times, hold);
  }
  for (const { placements } of production.sheets) {
    for (const one of placements) if (hasRoundLines(pieceOf(production, one))) add(one, null);
  }
  return [...found.values()];
}

/** Whether a wall or collar meets it along a line of many short ones. */
const hasRoundLines = ({ glueLines }: Piece): boolean =>
  new Set(glueLines.map(({ edge }) => edge)).size < glueLines.length;

function boxesOf(
  production: Production,
  { of, times, hold }: Wanted,
  page: { readonly width: number; readonly height: number },
): readonly Box[] {
  const layer = layerOf(production, of);
  const piece = pieceOf(production, of);
  const { spec } = production.roofs[of.roof] as MadeRoof;
  const name = `${spec.title}: ${piece.title}`;
  const whole = (): Drawing => drawPiece({ roof: { ...spec, copies: 1 }, layer, piece: of.piece, copy: 0 });
  const drawing = hold
    ? joinDrawings(whole(), holdMarks(piece, hold))
    : times === null
      ? whole()
      : { strokes: plainLines(piece), labels: [] };
  const use = hold
    ? `With its flaps: trace it ${times} times, laid by its marks ${hold.marks.join(' and ')}.`
    : times === null
      ? 'With its flaps and with the round lines where other parts stand.'
      : `Without its flaps: trace it ${times} times, then add each flap beside its line.`;
  const wordsOf = (width: number): readonly Box[] => [
    headingBox(name, width),
    { ...textBox(use, width), staysWithNext: true },
  ];
  const boxesIn = (width: number): readonly Box[] | null => {
    const words = wordsOf(width);
    const room = page.height - words.reduce((sum, { height }) => sum + height, 0);
    const picture = hung(drawing, { width, height: room });
    return picture && [...words, picture];
  };
  const narrow = boxesIn(columnWidth(page.width))?.map((box): Box => ({ ...box, isOfColumn: true }));
  return (
    narrow ??
    boxesIn(page.width) ?? [
      headingBox(name, page.width),
      textBox(
        'This template is larger than a page of the guide: take it from the printed pages, which lay it in tiles.',
        page.width,
      ),
    ]
  );
}

/** The two corners that a template is laid by, each with its number outside it. */
function holdMarks({ outline }: Piece, { marks, at: places }: NonNullable<Wanted['hold']>): Drawing {
  const middle = meanPoint(outline);
  return {
    strokes: [],
    labels: places.map((p, i) => {
      const [x, y] = add2(p, scale2(unit2(sub2(p, middle)), MARK));
      return labelAt(`mark ${marks[i]}`, [x, y - MARK_TEXT / 2], MARK_TEXT, { align: 'middle' });
    }),
  };
}

/** How far outside its corner the number of a mark stands, and how high it is, mm. */
const MARK = 4.5;
const MARK_TEXT = 2.6;

/** Edges of a piece's panels to cut, folds between them to score, lines where others stand. */
function plainLines({ panels, folds, board, outline, glueLines }: Piece): readonly Stroke[] {
  const isOn = (a: Vec2, b: Vec2): boolean =>
    folds.some(
      ({ ends: [p, q] }) =>
        distance2(p, a) + distance2(q, b) <= SNAP_MM || distance2(p, b) + distance2(q, a) <= SNAP_MM,
    );
  const cuts = board
    ? [ring('cut', outline)]
    : panels.flatMap(({ polygon }) => {
        const edges = polygon.map((a, i) => [a, at(polygon, i + 1)] as const);
        const free = edges.filter(([a, b]) => !isOn(a, b));
        return free.length === edges.length ? [ring('cut', polygon)] : free.map(([a, b]) => line('cut', a, b));
      });
  return [
    ...cuts,
    ...folds.filter(({ angle }) => angle > 0).map(({ kind, ends }) => line(`fold-${kind}`, ...ends)),
    ...glueLines.map(({ ends }) => line('glue', ...ends)),
  ];
}

/** A drawing at its own size as a box, on its side where it only fits so; null where it does not. */
function hung(drawing: Drawing, room: { readonly width: number; readonly height: number }): Box | null {
  const turned = moveDrawing(drawing, { cos: 0, sin: 1, move: [0, 0] });
  for (const one of [drawing, turned]) {
    const box = boxOf([...one.strokes.flatMap(({ points }) => points), ...one.labels.flatMap(labelCorners)]);
    const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
    if (width > room.width - 2 * AIR || height > room.height - 2 * AIR) continue;
    return {
      height: height + 2 * AIR,
      drawing: moveDrawing(one, { ...rest2, move: [AIR - box.minX, -AIR - box.maxY] }),
    };
  }
  return null;
}

/** Round a template, so that it can be cut out, mm. */
const AIR = 2;
