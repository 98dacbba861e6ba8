import { isInside } from '../../core/geometry/polygon.ts';
import { type Rigid2, rest2 } from '../../core/geometry/rigid2.ts';
import { add2, lerp2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Piece } from '../../core/net/net.ts';
import { drawPiece, type PieceToDraw } from '../drawing/draw-piece.ts';
import {
  type Drawing,
  joinDrawings,
  type Label,
  labelAt,
  labelCorners,
  line,
  moveDrawing,
  ring,
} from '../drawing/drawing.ts';
import { isClear, ringLines } from '../drawing/fit-label.ts';
import { CAP_HEIGHT, textWidth } from '../drawing/text-width.ts';
import { type Size, turnSize } from './arrange-pages.ts';
import { clipStroke, isInBox } from './clip-drawing.ts';
import type { Area } from './page-frame.ts';
import { type JoinMark, type Tile, type Tiling, tileBox } from './tile.ts';

type Segment = readonly [Vec2, Vec2];

const MARK_SIZE = 2.5;

/** A piece larger than the page, one drawing a tile, each at the lower left of the area; turned where that saves tiles. */
export const drawTiles = (
  item: PieceToDraw & { readonly shape: Piece },
  area: Area,
  overlap: number,
): readonly { readonly tile: string; readonly work: Drawing }[] => {
  const { shape } = item;
  const upright = tileBox(shape, area, overlap);
  const sideways = tileBox(turnSize(shape), area, overlap);
  const isTurned = sideways.tiles.length < upright.tiles.length;
  const tiling = isTurned ? sideways : upright;
  const turn: Rigid2 = isTurned ? { cos: 0, sin: 1, move: [shape.height, 0] } : rest2;
  const back = ([x, y]: Vec2): Vec2 => (isTurned ? [y, shape.height - x] : [x, y]);
  const breaks = breaksOf(tiling).map(([a, b]): Segment => [back(a), back(b)]);
  const whole = moveDrawing(drawPiece(item, breaks), turn);
  const outline = moveDrawing({ strokes: [ring('cut', shape.outline)], labels: [] }, turn).strokes[0]?.points ?? [];
  const marks = joinDrawings(...tiling.marks.map((mark) => drawMark(mark, whole, tiling, turnSizeIf(shape, isTurned))));
  const count = `${plural(tiling.rows, 'row')}, ${plural(tiling.columns, 'column')}`;
  return tiling.tiles.flatMap((tile) => {
    const part = clipTile(whole, marks, tile);
    if (part.strokes.length === 0 && !isInside(middleOf(tile), outline)) return [];
    const work = joinDrawings(part, { strokes: tile.trims.map((trim) => line('trim', ...trim)), labels: [] });
    const move: Vec2 = [area.x - tile.window.minX, area.y - tile.window.minY];
    return [{ tile: `${item.roof.title}: ${tile.name} of ${count}`, work: moveDrawing(work, { ...rest2, move }) }];
  });
};

const turnSizeIf = (size: Size, isTurned: boolean): Size => (isTurned ? turnSize(size) : size);

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

/** The diamond, and its number beside it where that touches nothing. */
const drawMark = ({ at, reach, name }: JoinMark, whole: Drawing, tiling: Tiling, size: Size): Drawing => {
  const width = textWidth(name, MARK_SIZE);
  const height = CAP_HEIGHT * MARK_SIZE;
  const lines = [
    ...whole.strokes.flatMap(({ points, closed }) => (closed ? ringLines(points) : ringLines(points).slice(0, -1))),
    ...tiling.tiles.flatMap((tile) => tile.trims),
  ];
  const spots = whole.labels.map((label) => {
    const [a, b, c] = labelCorners(label);
    const along: Vec2 = [Math.cos(label.turn), Math.sin(label.turn)];
    return { center: lerp2(a, c, 0.5), along, width: distance(a, b), height: distance(b, c) };
  });
  const bounds: readonly Vec2[] = [
    [0, 0],
    [size.width, 0],
    [size.width, size.height],
    [0, size.height],
  ];
  const away = reach + 1.2;
  const labels = [
    [1, 1],
    [-1, 1],
    [1, -1],
    [-1, -1],
  ].flatMap(([sx = 1, sy = 1]): readonly Label[] => {
    const center = add2(at, [sx * (away + width / 2 - 1), sy * (away + height / 2 - 1)]);
    return isClear({ center, along: [1, 0], width, height }, bounds, { lines, spots })
      ? [labelAt(name, add2(center, [0, -height / 2]), MARK_SIZE, { align: 'middle' })]
      : [];
  });
  return { strokes: [ring('rule', diamond(at, reach))], labels: labels.slice(0, 1) };
};

const distance = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** A tile shows its window; texts only on its own side of the lines where tiles meet, so that each is read once. */
const clipTile = (whole: Drawing, marks: Drawing, { window, own }: Tile): Drawing => ({
  strokes: [...whole.strokes, ...marks.strokes].flatMap((stroke) => clipStroke(stroke, window)),
  labels: [
    ...whole.labels.filter((label) => isInBox(lerp2(labelCorners(label)[0], labelCorners(label)[2], 0.5), own)),
    ...marks.labels.filter((label) => labelCorners(label).every((corner) => isInBox(corner, window))),
  ],
});
