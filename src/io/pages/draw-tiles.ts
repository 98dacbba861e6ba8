import { isInside } from '../../core/geometry/polygon.ts';
import { type Rigid2, rest2 } from '../../core/geometry/rigid2.ts';
import { add2, distance2, lerp2, type Vec2 } from '../../core/geometry/vector.ts';
import {
  type Drawing,
  joinDrawings,
  type Label,
  labelAt,
  labelCorners,
  line,
  moveDrawing,
  ring,
  type Stroke,
} from '../drawing/drawing.ts';
import { isClear, ringLines, type Spot } from '../drawing/fit-label.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { type Size, turnSize } from './arrange-pages.ts';
import { clipStroke, isInBox } from './clip-drawing.ts';
import type { Area } from './page-frame.ts';
import { type JoinMark, type Tile, type Tiling, tileBox } from './tile.ts';

type Segment = readonly [Vec2, Vec2];

const MARK_SIZE = 2.5;

/** What is larger than a page: mm, the lower left corner of its box at the origin. */
export interface ToTile extends Size {
  readonly title: string;
  /** What lies there; its texts keep clear of the breaks. */
  readonly draw: (breaks: readonly Segment[]) => Drawing;
  /** Outlines of the pieces: a tile without lines is left out where it lies in none of them. */
  readonly rings: readonly (readonly Vec2[])[];
  /** Lines that are drawn on the tiles there are, and by themselves are worth none. */
  readonly edges?: readonly Stroke[];
}

/** A piece or a sheet larger than the page, one drawing a tile, each at the upper left of the area; turned where that saves tiles. */
export const drawTiles = (
  large: ToTile,
  area: Area,
  overlap: number,
): readonly { readonly tile: readonly string[]; readonly work: Drawing; readonly isTurned: boolean }[] => {
  const { title, width, height, rings, edges = [] } = large;
  const upright = tileBox(large, area, overlap);
  const sideways = tileBox(turnSize(large), area, overlap);
  const isTurned = sideways.tiles.length < upright.tiles.length;
  const tiling = isTurned ? sideways : upright;
  const turn: Rigid2 = isTurned ? { cos: 0, sin: 1, move: [height, 0] } : rest2;
  const back = ([x, y]: Vec2): Vec2 => (isTurned ? [y, height - x] : [x, y]);
  const breaks = breaksOf(tiling).map(([a, b]): Segment => [back(a), back(b)]);
  const whole = moveDrawing(large.draw(breaks), turn);
  const edge = moveDrawing({ strokes: edges, labels: [] }, turn);
  const marks = drawMarks(tiling, whole, isTurned ? turnSize({ width, height }) : { width, height });
  const count = `${plural(tiling.rows, 'row')}, ${plural(tiling.columns, 'column')}`;
  return tiling.tiles.flatMap((tile) => {
    const part = clipTile(whole, marks, tile);
    const isBlank = !part.strokes.some(({ role }) => role !== 'rule');
    if (isBlank && !rings.some((ring) => isInside(back(middleOf(tile)), ring))) return [];
    const trims = tile.trims.map((trim) => line('trim', ...trim));
    const around = edge.strokes.flatMap((stroke) => clipStroke(stroke, tile.window));
    const work = joinDrawings(part, { strokes: [...around, ...trims], labels: [] });
    const move: Vec2 = [area.x - tile.window.minX, area.y + area.height - tile.window.maxY];
    const place = `${title}: ${tile.name}`;
    return [
      { tile: [`${place} of ${count}`, place, tile.name], work: moveDrawing(work, { ...rest2, move }), isTurned },
    ];
  });
};

const plural = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

const middleOf = ({ window }: Tile): Vec2 => [(window.minX + window.maxX) / 2, (window.minY + window.maxY) / 2];

/** Lines that the piece's texts keep clear of: where tiles meet, and the marks on them. */
const breaksOf = (tiling: Tiling): readonly Segment[] => [
  ...tiling.tiles.flatMap((tile) => tile.trims),
  ...tiling.marks.flatMap(({ at, reach }) => ringLines(diamond(at, reach * 2))),
];

const diamond = ([x, y]: Vec2, reach: number): readonly Vec2[] => [
  [x - reach, y],
  [x, y - reach],
  [x + reach, y],
  [x, y + reach],
];

/** The diamonds, and beside each its number where that touches nothing. */
const drawMarks = (tiling: Tiling, whole: Drawing, size: Size): Drawing => {
  const lines = [
    ...whole.strokes.flatMap(({ points, closed }) => (closed ? ringLines(points) : ringLines(points).slice(0, -1))),
    ...tiling.tiles.flatMap((tile) => tile.trims),
    ...tiling.marks.flatMap(({ at, reach }) => ringLines(diamond(at, reach))),
  ];
  const spots = whole.labels.map(spotOf);
  const paper: readonly Vec2[] = [
    [0, 0],
    [size.width, 0],
    [size.width, size.height],
    [0, size.height],
  ];
  const labels = tiling.marks.flatMap((mark): readonly Label[] => {
    const label = numbersRound(mark).find((candidate) => isClear(spotOf(candidate), paper, { lines, spots }));
    if (label === undefined) return [];
    spots.push(spotOf(label));
    return [label];
  });
  return { strokes: tiling.marks.map(({ at, reach }) => ring('rule', diamond(at, reach))), labels };
};

/** The mark's number in each of the four quarters round it. */
const numbersRound = ({ at, reach, name }: JoinMark): readonly Label[] => {
  const out = (half: number): number => reach + half;
  const halfWidth = textWidth(name, MARK_SIZE) / 2;
  const halfHeight = (CAP_HEIGHT * MARK_SIZE) / 2;
  return [
    [1, 1],
    [-1, 1],
    [1, -1],
    [-1, -1],
  ].map(([sx = 1, sy = 1]) => {
    const center = add2(at, [sx * out(halfWidth), sy * out(halfHeight)]);
    return labelAt(name, add2(center, [0, -halfHeight]), MARK_SIZE, { align: 'middle' });
  });
};

const spotOf = (label: Label): Spot => {
  const [a, b, c] = labelCorners(label);
  const along: Vec2 = [Math.cos(label.turn), Math.sin(label.turn)];
  return { center: lerp2(a, c, 0.5), along, width: distance2(a, b), height: distance2(b, c) };
};

/** A tile shows its window; texts only on its own side of the lines where tiles meet, so that each is read once. */
const clipTile = (whole: Drawing, marks: Drawing, { window, own }: Tile): Drawing => ({
  strokes: [
    ...whole.strokes.filter(({ role }) => role !== 'rule').flatMap((stroke) => clipStroke(stroke, window)),
    // Arrows go with the names: they cross no line where tiles meet.
    ...whole.strokes.filter(({ role, points }) => role === 'rule' && points.every((point) => isInBox(point, own))),
    ...marks.strokes.filter((mark) => mark.points.every((corner) => isInBox(corner, window))),
  ],
  labels: [
    ...whole.labels.filter((label) => isInBox(lerp2(labelCorners(label)[0], labelCorners(label)[2], 0.5), own)),
    ...marks.labels.filter((label) => labelCorners(label).every((corner) => isInBox(corner, window))),
  ],
});
