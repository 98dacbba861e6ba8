import { isInside, ringArea } from '../../core/geometry/polygon.ts';
import { alignSegments } from '../../core/geometry/rigid2.ts';
import { add2, dot2, left2, lerp2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import {
  type Flap,
  type GlueLine,
  letterStretch,
  type Panel,
  type Piece,
  type SeamSide,
  scoredLines,
} from '../../core/net/net.ts';
import type { RoofSpec } from '../../core/project/project.ts';
import { type Edge, isJoinedAt } from '../../core/solid/solid.ts';
import { boardTexts } from './board-texts.ts';
import { type Drawing, emptyDrawing, type Label, labelAt, line, ring, type Stroke } from './drawing.ts';
import { isClear, type Obstacles, type Spot } from './fit-label.ts';
import { NAME_SIZES, type NameBlock, namePanel, plainBlocks, SMALL_SIZES } from './name-block.ts';
import { CAP_HEIGHT, textWidth } from './text-width.ts';

/** A piece of a layer, and which of the roof's copies it belongs to (from 0). */
export interface PieceToDraw {
  readonly roof: RoofSpec;
  readonly layer: MadeLayer;
  /** Index into the net's pieces. */
  readonly piece: number;
  readonly copy: number;
}

type Segment = readonly [Vec2, Vec2];

const MARK_SIZES = [2.8, 2.4, 2, 1.7, 1.4] as const;
/** Inside a panel a letter is seen on the finished roof: it is kept small. */
const SMALL_MARKS = MARK_SIZES.filter((size) => size <= 2);

/**
 * A piece as seen from the outside of the roof (the printed side), in its own frame: mm, y up.
 *
 * The outline is cut; folds and the feet of flaps are dashed by kind. Each panel that has room carries an up arrow and
 * its name, one of them also whose piece it is; both sides of a seam carry the seam's letter, on the flap where there is one. A text that would touch a
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
    const placed = placeMark(mark, along, polygon, (reach) => centersInside({ face: -1, polygon }, side, reach + 1), {
      lines,
      spots: taken,
    });
    if (placed === null) continue;
    taken.push(placed.spot);
    marks.push(inPanel(placed).label);
  }
  const edges = boardTexts(piece).flatMap(({ text, along, centersFor }) => {
    const within = piece.board?.outer ?? [];
    const set = placeText(text, along, within, centersFor, { lines, spots: taken }, MARK_SIZES);
    if (set === null) return [];
    taken.push(set.spot);
    return [set.label];
  });
  const [whose = '', which = ''] = pieceLines;
  const titleOf = ({ face }: Panel): string => layer.solid.faces[face]?.title ?? '';
  const full = (panel: Panel): readonly NameBlock[] => [
    ...NAME_SIZES.map((size) => ({ size, arrow: true, texts: [titleOf(panel), whose, which] })),
    ...SMALL_SIZES.map((size) => ({ size, arrow: true, texts: [titleOf(panel), whose] })),
    ...SMALL_SIZES.map((size) => ({ size, arrow: false, texts: [`${titleOf(panel)} · ${whose}`] })),
    ...SMALL_SIZES.map((size) => ({ size, arrow: true, texts: [whose] })),
    ...SMALL_SIZES.map((size) => ({ size, arrow: false, texts: [whose] })),
  ];
  let isSaid = false;
  const drawn = new Map<Panel, Drawing>();
  // Whose piece it is stands on the largest panel that has room for it.
  for (const panel of byArea(piece)) {
    const along = upOf(layer, panel);
    const surface = { polygon: surfaceOf(piece, panel) };
    const obstacles = { lines, spots: taken };
    const said: Drawing | null = isSaid ? null : namePanel(surface, along, full(panel), obstacles);
    isSaid ||= said !== null;
    drawn.set(panel, said ?? namePanel(surface, along, plainBlocks(titleOf(panel)), obstacles) ?? emptyDrawing);
  }
  const names = piece.panels.map((panel) => drawn.get(panel) ?? emptyDrawing);
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
    const mark = placeMark(letter, [1, 0], flap.polygon, () => centersOnFlap(flap), { lines: [], spots }, MARK_SIZES);
    if (mark) spots.push(mark.spot);
    const blocks = SMALL_SIZES.map((size) => ({ size, arrow: false, texts: [names[i] ?? ''] }));
    const name = namePanel(flap, [1, 0], blocks, { lines: [], spots });
    return [...(mark ? [mark.label] : []), ...(name?.labels ?? [])];
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

/** Panels from the largest down; those all but alike in the order of the piece. */
/** The printed surface of a panel: of board its outside as it is cut. */
const surfaceOf = ({ board }: Piece, { polygon }: Panel): readonly Vec2[] => board?.outer ?? polygon;

const byArea = ({ panels }: Piece): readonly Panel[] =>
  panels
    .map((panel, i) => ({ panel, i, area: Math.round(areaOf(panel)) }))
    .sort((a, b) => b.area - a.area || a.i - b.i)
    .map(({ panel }) => panel);

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
  if (!isJoinedAt(layer.solid.edges[edge] as Edge, panel.face)) return null;
  // A curve's teeth are too small for a letter; it stands inside the panel.
  const flap = side.curve
    ? undefined
    : piece.flaps.find((candidate) => candidate.edge === edge && candidate.panel === side.panel);
  const up = upOf(layer, panel);
  const within = surfaceOf(piece, panel);
  const inside = { ...panel, polygon: within };
  // Where there is little room the letter stands along its seam, in a panel close to it.
  const along = alongSeam(side, up);
  const onFlap =
    flap &&
    (placeMark(mark, up, flap.polygon, () => centersOnFlap(flap), obstacles, MARK_SIZES) ??
      placeMark(mark, along, flap.polygon, () => centersOnFlap(flap), obstacles));
  if (onFlap) return onFlap;
  const close = (height: number): readonly Vec2[] => centersInside(inside, side, height / 2 + CLOSE);
  const placed =
    placeMark(mark, up, within, (reach) => centersInside(inside, side, reach + 1), obstacles) ??
    placeText(mark, along, within, close, obstacles, SMALL_MARKS);
  return placed && inPanel(placed);
};

/** The direction of a seam on its panel, not upside down. */
const alongSeam = (side: SeamSide, up: Vec2): Vec2 => {
  const [a, b] = letterStretch(side, 0.5);
  const way = unit2(sub2(b, a));
  return dot2(way, up) < 0 ? scale2(way, -1) : way;
};

/** From a seam to a letter that stands close to it, mm. */
const CLOSE = 0.7;

const inPanel = ({ label, spot }: PlacedMark): PlacedMark => ({ label: { ...label, isInPanel: true }, spot });

/** The largest letter that is clear of lines at one of the places asked for; `reach` is half its diagonal, mm. */
const placeMark = (
  mark: string,
  along: Vec2,
  within: readonly Vec2[],
  centersFor: (reach: number) => readonly Vec2[],
  obstacles: Obstacles,
  sizes: readonly number[] = SMALL_MARKS,
): PlacedMark | null => {
  const centers = (height: number, width: number): readonly Vec2[] => centersFor(Math.hypot(width, height) / 2);
  return placeText(mark, along, within, centers, obstacles, sizes);
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
const centersInside = (panel: Panel, side: SeamSide, off: number): readonly Vec2[] =>
  SHARES.flatMap((share) => {
    const [a, b] = letterStretch(side, share);
    const step = scale2(left2(unit2(sub2(b, a))), off);
    const foot = lerp2(a, b, side.curve ? 0.5 : share);
    return [add2(foot, step), sub2(foot, step)].filter((p) => isInside(p, panel.polygon));
  });
