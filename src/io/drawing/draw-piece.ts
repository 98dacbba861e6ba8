import { isInside, ringArea } from '../../core/geometry/polygon.ts';
import { alignSegments } from '../../core/geometry/rigid2.ts';
import { add2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import {
  type Flap,
  type GlueLine,
  letterStretch,
  type Panel,
  type Piece,
  type SeamSide,
  scoredLines,
} from '../../core/net/net.ts';
import type { MadeLayer } from '../../core/pipeline.ts';
import type { RoofSpec } from '../../core/project/project.ts';
import { boardTexts } from './board-texts.ts';
import { type Drawing, type Label, labelAt, line, ring, type Stroke } from './drawing.ts';
import { findSpot, isClear, type Obstacles, type Spot } from './fit-label.ts';
import { CAP_HEIGHT, DESCENT, textWidth } from './text-width.ts';

/** A piece of a layer, and which of the roof's copies it belongs to (from 0). */
export interface PieceToDraw {
  readonly roof: RoofSpec;
  readonly layer: MadeLayer;
  /** Index into the net's pieces. */
  readonly piece: number;
  readonly copy: number;
}

type Segment = readonly [Vec2, Vec2];

/** Letter heights (em, mm) tried for a panel's name, and the least that is still read. */
const NAME_SIZES = [3.4, 3, 2.6, 2.3, 2] as const;
const SMALL_SIZES = [...NAME_SIZES, 1.8, 1.6] as const;
const MARK_SIZES = [2.8, 2.4, 2, 1.7, 1.4] as const;

/**
 * A piece as seen from the outside of the roof (the printed side), in its own frame: mm, y up.
 *
 * The outline is cut; folds and the feet of flaps are dashed by kind. Each panel that has room carries an up arrow and
 * its name; both sides of a seam carry the seam's letter, on the flap where there is one. A text that would touch a
 * line is set smaller or left out. `breaks` are further lines that texts keep clear of (where tiles are parted).
 */
export const drawPiece = (
  { roof, layer, piece: index, copy }: PieceToDraw,
  breaks: readonly Segment[] = [],
): Drawing => {
  const piece = layer.net.pieces[index];
  if (piece === undefined) throw new RangeError(`the net has no piece ${index}`);
  const lines: readonly Segment[] = [
    ...breaks,
    ...piece.glueLines.map((glue) => glue.ends),
    ...piece.folds.filter((fold) => fold.angle > 0).map((fold) => fold.ends),
  ];
  const taken: Spot[] = [];
  const pieceLines = [
    `${roof.title}${roof.copies > 1 ? `, ${copy + 1} of ${roof.copies}` : ''}`,
    `${'seat' in layer ? 'seat' : layer.spec.as} · ${piece.id}`,
  ];
  if (piece.strip) return drawStrip(layer, piece, [pieceLines[0] as string, piece.title]);
  const marks = layer.net.seams.flatMap((seam) =>
    seam.sides.flatMap((side) => {
      if (side.piece !== index) return [];
      const mark = markSide(layer, piece, seam.edge, side, seam.mark, { lines, spots: taken });
      if (mark === null) return [];
      taken.push(mark.spot);
      return [mark.label];
    }),
  );
  for (const [mark, { panel, ends }] of lettersOfLines(piece)) {
    const { polygon } = piece.panels[panel] as Panel;
    const side: SeamSide = { piece: index, panel, ends };
    const along = upOf(layer, piece.panels[panel] as Panel);
    const placed = placeMark(mark, along, polygon, (reach) => centersInside({ face: -1, polygon }, side, reach), {
      lines,
      spots: taken,
    });
    if (placed === null) continue;
    taken.push(placed.spot);
    marks.push(placed.label);
  }
  const edges = boardTexts(piece).flatMap(({ text, along, centersFor }) => {
    const within = piece.board?.outer ?? [];
    const set = placeText(text, along, within, centersFor, { lines, spots: taken }, MARK_SIZES);
    if (set === null) return [];
    taken.push(set.spot);
    return [set.label];
  });
  const main = largestPanel(piece);
  const names = piece.panels.map((panel) => {
    const face = layer.solid.faces[panel.face];
    return namePanel(panel, upOf(layer, panel), face?.title ?? '', panel === main ? pieceLines : [], {
      lines,
      spots: taken,
    });
  });
  return {
    strokes: [...outlineOf(piece), ...names.flatMap((name) => name.strokes)],
    labels: [...marks, ...edges, ...names.flatMap((name) => name.labels)],
  };
};

/** A seam strip: its seam's letter on both halves, and beside it whose it is where there is room. */
const drawStrip = (layer: MadeLayer, piece: Piece, names: readonly string[]): Drawing => {
  const letter = layer.net.seams.find(({ edge }) => edge === piece.strip?.edge)?.mark ?? '';
  const spots: Spot[] = [];
  const labels = piece.flaps.flatMap((flap, i) => {
    const mark = placeMark(letter, [1, 0], flap.polygon, () => centersOnFlap(flap), { lines: [], spots });
    if (mark) spots.push(mark.spot);
    const name = namePanel(flap, [1, 0], names[i] ?? '', [], { lines: [], spots }, false);
    return [...(mark ? [mark.label] : []), ...name.labels];
  });
  return { strokes: outlineOf(piece), labels };
};

const outlineOf = (piece: Piece): readonly Stroke[] => [
  ring('cut', piece.outline),
  ...scoredLines(piece).map(({ kind, points }) => line(`fold-${kind}`, ...points)),
  ...piece.rulings.map((ruling) => line('ruling', ...ruling.ends)),
  ...piece.glueLines.map((glue) => line('glue', ...glue.ends)),
];

/** Letters of seams that another layer carries, each beside the middle one of its lines. */
const lettersOfLines = ({ glueLines }: Piece): ReadonlyMap<string, GlueLine> => {
  const lines = new Map<string, GlueLine[]>();
  for (const line of glueLines) if (line.mark) lines.set(line.mark, [...(lines.get(line.mark) ?? []), line]);
  return new Map([...lines].map(([mark, own]) => [mark, own[Math.floor(own.length / 2)] as GlueLine]));
};

const largestPanel = (piece: Piece): Panel | undefined =>
  piece.panels.reduce<Panel | undefined>(
    (best, panel) => (best === undefined || areaOf(panel) > areaOf(best) + 1 ? panel : best),
    undefined,
  );

const areaOf = (panel: Panel): number => Math.abs(ringArea(panel.polygon));

/** Unit vector along the panel's eave or foot, the roof rising to its left; level where it has neither. */
const upOf = (layer: MadeLayer, panel: Panel): Vec2 => {
  const roll = layer.solid.faces[panel.face]?.roll;
  if (roll) {
    // The panel's own frame has the level to the right.
    const [a, b] = [0, 1].map((i) => panel.polygon[i] as Vec2) as [Vec2, Vec2];
    const { cos, sin } = alignSegments(roll.flat[0] as Vec2, roll.flat[1] as Vec2, a, b);
    return [cos, sin];
  }
  const loop = layer.solid.faces[panel.face]?.loop ?? [];
  for (const [i, vertex] of loop.entries()) {
    const next = loop[(i + 1) % loop.length];
    const low = layer.solid.edges.find(
      ({ role, ends }) => (role === 'eave' || role === 'foot') && ends.includes(vertex) && ends.includes(next ?? -1),
    );
    const a = panel.polygon[i];
    const b = panel.polygon[(i + 1) % loop.length];
    if (low !== undefined && a !== undefined && b !== undefined) return unit2(sub2(b, a));
  }
  return [1, 0];
};

const SHARES = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74] as const;

interface PlacedMark {
  readonly label: Label;
  readonly spot: Spot;
}

/** A seam's letter on its flap where this side carries one, else inside the panel. */
const markSide = (
  layer: MadeLayer,
  piece: Piece,
  edge: number,
  side: SeamSide,
  mark: string,
  obstacles: Obstacles,
): PlacedMark | null => {
  const panel = piece.panels[side.panel];
  if (panel === undefined) return null;
  // A curve's teeth are too small for a letter; it stands inside the panel.
  const flap = side.curve
    ? undefined
    : piece.flaps.find((candidate) => candidate.edge === edge && candidate.panel === side.panel);
  return placeMark(
    mark,
    upOf(layer, panel),
    (flap ?? panel).polygon,
    (reach) => (flap ? centersOnFlap(flap) : centersInside(panel, side, reach)),
    obstacles,
  );
};

/** The largest letter that is clear of lines at one of the places asked for; `reach` is half its diagonal, mm. */
const placeMark = (
  mark: string,
  along: Vec2,
  within: readonly Vec2[],
  centersFor: (reach: number) => readonly Vec2[],
  obstacles: Obstacles,
): PlacedMark | null => {
  const centers = (height: number, width: number): readonly Vec2[] => centersFor(Math.hypot(width, height) / 2);
  return placeText(mark, along, within, centers, obstacles, MARK_SIZES);
};

/** The largest text that is clear of lines at one of the places asked for, by its height and width, mm. */
const placeText = (
  mark: string,
  along: Vec2,
  within: readonly Vec2[],
  centersFor: (height: number, width: number) => readonly Vec2[],
  obstacles: Obstacles,
  sizes: readonly number[],
): PlacedMark | null => {
  for (const size of sizes) {
    const width = textWidth(mark, size);
    const height = CAP_HEIGHT * size;
    for (const center of centersFor(height, width)) {
      const spot: Spot = { center, along, width, height };
      if (!isClear(spot, within, obstacles)) continue;
      const foot = add2(center, scale2(left2(along), -height / 2));
      return { label: labelAt(mark, foot, size, { align: 'middle', turn: Math.atan2(along[1], along[0]) }), spot };
    }
  }
  return null;
};

/** Along the middle of a flap, between its foot and its free edge. */
const centersOnFlap = ({ polygon }: Flap): readonly Vec2[] => {
  const [a, b] = polygon;
  if (a === undefined || b === undefined) return [];
  const out = left2(unit2(sub2(b, a)));
  const depth = Math.max(...polygon.map((p) => (p[0] - a[0]) * out[0] + (p[1] - a[1]) * out[1]));
  return SHARES.map((share) => add2(lerp2(a, b, share), scale2(out, depth / 2)));
};

/** Just inside the panel, a little off the seam; at an abutment (a line within the panel) on either side of it. */
const centersInside = (panel: Panel, side: SeamSide, reach: number): readonly Vec2[] =>
  SHARES.flatMap((share) => {
    const [a, b] = letterStretch(side, share);
    const step = scale2(left2(unit2(sub2(b, a))), reach + 1);
    const foot = lerp2(a, b, side.curve ? 0.5 : share);
    return [add2(foot, step), sub2(foot, step)].filter((p) => isInside(p, panel.polygon));
  });

/** Up arrow, name and further lines as one block, as large as fits: all of it, else arrow and name, else either. */
const namePanel = (
  { polygon }: Pick<Panel, 'polygon'>,
  along: Vec2,
  title: string,
  more: readonly string[],
  obstacles: Obstacles,
  hasArrow = true,
): Drawing => {
  const attempts = [
    ...(more.length === 0 ? [] : NAME_SIZES.map((size) => ({ size, arrow: hasArrow, texts: [title, ...more] }))),
    ...SMALL_SIZES.map((size) => ({ size, arrow: hasArrow, texts: [title] })),
    ...SMALL_SIZES.map((size) => ({ size, arrow: false, texts: [title] })),
    ...(hasArrow ? SMALL_SIZES.map((size) => ({ size, arrow: true, texts: [] })) : []),
  ];
  for (const attempt of attempts) {
    const rows = blockRows(attempt.size, attempt.arrow, attempt.texts);
    const width = Math.max(...rows.map((row) => row.width));
    const hang = DESCENT * Math.min(...rows.map((row) => row.size));
    const height = rows.reduce((sum, row) => sum + row.height, hang);
    const spot = findSpot(polygon, along, { width, height }, obstacles);
    if (spot !== null) return drawBlock(spot, rows);
  }
  return { strokes: [], labels: [] };
};

interface BlockRow {
  readonly text: string | null;
  readonly size: number;
  readonly width: number;
  /** From the top of the row to its baseline. */
  readonly height: number;
}

const blockRows = (size: number, hasArrow: boolean, texts: readonly string[]): readonly BlockRow[] => [
  ...(hasArrow ? [{ text: null, size, width: size * 0.6, height: size * 1.5 }] : []),
  ...texts.map((text, i) => {
    const own = i === 0 ? size : size * 0.78;
    const above = i === 0 ? (hasArrow ? 0.5 : 0) : 0.55;
    return { text, size: own, width: textWidth(text, own), height: own * (CAP_HEIGHT + above) };
  }),
];

const drawBlock = (spot: Spot, rows: readonly BlockRow[]): Drawing => {
  const up = left2(spot.along);
  const turn = Math.atan2(spot.along[1], spot.along[0]);
  const strokes: Stroke[] = [];
  const labels: Label[] = [];
  let below = spot.height / 2;
  for (const row of rows) {
    below -= row.height;
    const foot = add2(spot.center, scale2(up, below));
    if (row.text === null) strokes.push(...upArrow(foot, spot.along, row.height));
    else labels.push(labelAt(row.text, foot, row.size, { align: 'middle', turn }));
  }
  return { strokes, labels };
};

/** An arrow up the roof from its foot, as high as given. */
export const upArrow = (foot: Vec2, along: Vec2, height: number): readonly Stroke[] => {
  const up = left2(along);
  const tip = add2(foot, scale2(up, height));
  const barb = (side: number): Vec2 => add2(sub2(tip, scale2(up, height * 0.36)), scale2(along, side * height * 0.2));
  return [line('rule', foot, tip), line('rule', barb(-1), tip, barb(1))];
};
