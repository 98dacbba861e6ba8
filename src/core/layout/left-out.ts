import { ringArea } from '../geometry/polygon.ts';
import type { Issue } from '../issue.ts';
import { paperSizes } from '../project/paper-sizes.ts';
import type { Direction, Stock } from '../project/project.ts';
import { isAtMost } from '../tolerance.ts';
import { reachOff } from './check-layout.ts';
import type { LayoutJob } from './job.ts';
import type { Layout, PieceToLay } from './layout.ts';
import { laidRing } from './placed.ts';
import { bestLayout } from './search-layout.ts';

/** What a piece needs to be told how it can be parted: the edges it is folded along, by what they part it into. */
export interface Split {
  /** Id of the edge. */
  readonly edge: string;
  /** Boxes of both parts, mm. */
  readonly parts: readonly (readonly [width: number, height: number])[];
}

/** Splits of a piece by its key; asked for only where it is too large. */
export type SplitsOf = (piece: PieceToLay) => readonly Split[];

/**
 * Why pieces have no place, and what would help: a piece larger than any sheet is named once for all its copies, with the seam
 * at which it could be parted and a standard size that has room; where the sheets run out, how many more are needed.
 */
export function leftOutIssues(job: LayoutJob, { leftOut }: Layout, splitsOf: SplitsOf): readonly Issue[] {
  const pieces = leftOut.map((i) => job.pieces[i] as PieceToLay);
  const tooLarge = pieces.filter((piece) => !piece.stock.some((s) => hasRoom(piece, job.stock[s] as Stock)));
  const short = pieces.filter((piece) => !tooLarge.includes(piece));
  return [...tooLarge.filter(isFirst).map((piece) => largeIssue(job, piece, splitsOf)), ...runOut(job, short)];
}

const isFirst = (piece: PieceToLay, i: number, all: readonly PieceToLay[]): boolean =>
  all.findIndex(({ roof, layer, piece: p }) => roof === piece.roof && layer === piece.layer && p === piece.piece) === i;

/** Whether a sheet has room for a box, on its side too where the paper allows that. */
function boxFits(width: number, height: number, [w, h]: readonly [number, number], direction: Direction): boolean {
  const fits = (a: number, b: number): boolean => isAtMost(a, width) && isAtMost(b, height);
  return fits(w, h) || (direction === 'any' && fits(h, w));
}

/** Whether a sheet by itself has room for a piece: by its box; in an offcut wherever a small search finds it a place. */
function hasRoom(piece: PieceToLay, stock: Stock): boolean {
  const { width, height, margin, direction, outline } = stock;
  if (!boxFits(width - 2 * margin, height - 2 * margin, [piece.width, piece.height], direction)) return false;
  return !outline || spotsOf(piece, stock).some((spot) => reachOff(laidRing(piece, spot), stock) === 0);
}

/** Places on an even grid, in the turns that the paper allows. */
function spotsOf(piece: PieceToLay, { width, height, direction }: Stock): readonly Spot[] {
  const steps = Array.from({ length: GRID + 1 }, (_, i) => i / GRID);
  const quarters = direction === 'any' ? [0, 1, 2, 3] : direction === 'two-way' ? [0, 2] : [0];
  return quarters.flatMap((quarter) => {
    const isAcross = quarter % 2 === 1;
    const [w, h] = isAcross ? [piece.height, piece.width] : [piece.width, piece.height];
    // Where the lower left of the piece's own box comes to when it is turned and its new box stands at the origin.
    const [x0, y0] = [quarter === 1 || quarter === 2 ? w : 0, quarter >= 2 ? h : 0];
    return steps.flatMap((sx) =>
      steps.map((sy) => ({
        x: x0 + sx * (width - w),
        y: y0 + sy * (height - h),
        rotation: (quarter * Math.PI) / 2,
      })),
    );
  });
}

type Spot = { readonly x: number; readonly y: number; readonly rotation: number };
const GRID = 12;

/** The piece that is too large, by how much, and what would help. */
function largeIssue(job: LayoutJob, piece: PieceToLay, splitsOf: SplitsOf): Issue {
  const { width, height, title, path } = piece;
  const roomiest = piece.stock
    .map((s) => job.stock[s] as Stock)
    .reduce((best, one) => (missing(piece, one) < missing(piece, best) ? one : best));
  const { name, margin, direction } = roomiest;
  const [sheetWidth, sheetHeight] = [roomiest.width - 2 * margin, roomiest.height - 2 * margin];
  const over = missing(piece, roomiest);
  const split = splitsOf(piece).find(({ parts }) =>
    parts.every((part) => boxFits(sheetWidth, sheetHeight, part, direction)),
  );
  const size = paperSizes
    .filter(({ series }) => series !== RARE)
    .flatMap((one) => [one, { ...one, name: `${one.name} on its side`, width: one.height, height: one.width }])
    .filter((one) => boxFits(one.width - 2 * margin, one.height - 2 * margin, [width, height], direction))
    .sort((a, b) => a.width * a.height - b.width * b.height)[0];
  const ways = [
    ...(split ? [`cut it along ${split.edge}, so that both parts fit`] : []),
    ...(size
      ? [`take a larger sheet: ${size.name} has room`]
      : ['take a larger sheet: none of the standard sizes has room']),
    ...(split || splitsOf(piece).length === 0 ? [] : ['cut the roof in more pieces']),
  ];
  const room =
    over > 0
      ? 'a sheet of {name} has room for {sheetWidth} by {sheetHeight}, {over} too little.'
      : 'the outline of {name} has no room for it.';
  return {
    level: 'error',
    code: 'piece-too-large',
    path,
    numbers: { width, height, sheetWidth, sheetHeight, over, foldsCount: splitsOf(piece).length },
    message: `${title} is {width} wide and {height} high; ${room.replace('{name}', () => name)}`,
    remedy: `${sentence(ways.join(', or '))}.`,
  };
}

/** Sizes that few shops have. */
const RARE = 'ISO B';

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** How much a sheet is too narrow or too low for a piece, the less of upright and on its side where that is allowed, mm. */
function missing({ width, height }: PieceToLay, { width: w, height: h, margin, direction }: Stock): number {
  const lack = (a: number, b: number): number => Math.max(0, a - (w - 2 * margin), b - (h - 2 * margin));
  return direction === 'any' ? Math.min(lack(width, height), lack(height, width)) : lack(width, height);
}

/** What found no room because sheets ran out: an issue for each stock that the pieces would end on. */
function runOut(job: LayoutJob, pieces: readonly PieceToLay[]): readonly Issue[] {
  const ends = new Map<number, PieceToLay[]>();
  for (const piece of pieces) {
    const s = piece.stock.findLast((one) => hasRoom(piece, job.stock[one] as Stock)) as number;
    ends.set(s, [...(ends.get(s) ?? []), piece]);
  }
  return [...ends].map(([s, on]): Issue => {
    const { name, count } = job.stock[s] as Stock;
    const { more, isLeast } = sheetsFor(job, s, on);
    const [first] = on as [PieceToLay];
    const what = on.length === 1 ? `${first.title} of copy {copyCount} finds` : '{piecesCount} pieces find';
    return {
      level: 'error',
      code: 'stock-too-small',
      path: first.path,
      numbers: {
        sheetsCount: count ?? 0,
        moreCount: more,
        piecesCount: on.length,
        ...(on.length === 1 ? { copyCount: first.copy + 1 } : {}),
      },
      message: `${what} no room on the {sheetsCount} ${count === 1 ? 'sheet' : 'sheets'} of ${name}.`,
      remedy: `Add ${isLeast ? '' : 'up to '}{moreCount} more ${more === 1 ? 'sheet' : 'sheets'} of it, or give the layer a second stock.`,
    };
  });
}

/** So many pieces at most are laid in an offcut by a search of some rounds, to count its sheets; more by a search of one. */
const FEW = 12;
const SOME = 4;

/**
 * Sheets of one stock that these pieces need by themselves, as laid at once; those that find no place so have one each. Of an
 * offcut a longer search may come to fewer where the pieces do not fill them: then it is not said to be the least.
 */
function sheetsFor(
  job: LayoutJob,
  s: number,
  pieces: readonly PieceToLay[],
): { readonly more: number; readonly isLeast: boolean } {
  const stock = job.stock.map((one, i) => (i === s ? { ...one, count: null } : one));
  const outline = job.stock[s]?.outline;
  const rounds = outline ? (pieces.length <= FEW ? SOME : 1) : 0;
  const alone = pieces.map((piece) => ({ ...piece, stock: [s] }));
  const { sheets, leftOut } = bestLayout({ ...job, stock, pieces: alone, fixed: [] }, { rounds });
  const more = sheets.length + leftOut.length;
  const filled = pieces.reduce((sum, piece) => sum + ringArea(piece.outline), 0);
  return { more, isLeast: !outline || !isAtMost(filled, (more - 1) * ringArea(outline)) };
}
