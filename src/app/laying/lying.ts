import { boxedRing, ringDepth } from '../../core/geometry/convex-parts.ts';
import { boxOf, ringArea, ringDistance } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { reachOff } from '../../core/layout/check-layout.ts';
import { keyOf, type LaidSheet, type PieceKey, type PieceToLay, type Placement } from '../../core/layout/layout.ts';
import { laidRing } from '../../core/layout/placed.ts';
import type { Direction, Stock } from '../../core/project/project.ts';
import { NOISE_MM } from '../../core/tolerance.ts';

/** Where a piece lies: which sheet of which stock, and the motion of its own frame, mm and radians. */
export interface Spot {
  readonly stock: number;
  readonly index: number;
  readonly x: number;
  readonly y: number;
  readonly rotation: number;
}

export type Laid = readonly LaidSheet[];

export const isSamePiece = (a: PieceKey, b: PieceKey): boolean => keyOf(a) === keyOf(b);

/** A piece's place; null for one that is not laid. */
export const spotOf = (sheets: Laid, key: PieceKey): (Spot & { readonly locked: boolean }) | null => {
  for (const { stock, index, placements } of sheets) {
    const found = placements.find((placement) => isSamePiece(placement, key));
    if (found) {
      const { x, y, rotation, locked = false } = found;
      return { stock, index, x, y, rotation, locked };
    }
  }
  return null;
};

/** A piece with its place. */
export interface Lying {
  readonly piece: PieceToLay;
  /** The very one of the layout: the same as long as the piece stays. */
  readonly placement: Placement;
  readonly stock: number;
  readonly index: number;
}

const byKey = new WeakMap<readonly PieceToLay[], ReadonlyMap<string, PieceToLay>>();

/** The pieces of a list by their keys. */
export const piecesByKey = (pieces: readonly PieceToLay[]): ReadonlyMap<string, PieceToLay> => {
  const known = byKey.get(pieces) ?? new Map(pieces.map((piece) => [keyOf(piece), piece]));
  byKey.set(pieces, known);
  return known;
};

/** Every laid piece, sheet by sheet. */
export const lyingOn = (sheets: Laid, pieces: readonly PieceToLay[]): readonly Lying[] => {
  const known = piecesByKey(pieces);
  return sheets.flatMap(({ stock, index, placements }) =>
    placements.flatMap((placement): Lying[] => {
      const piece = known.get(keyOf(placement));
      return piece ? [{ piece, placement, stock, index }] : [];
    }),
  );
};

/** A layout in which everything that stayed where it was is the very same as before: so it is not drawn anew. */
export const keptWhereSame = (before: Laid, after: Laid): Laid => {
  const known = new Map(before.flatMap(({ placements }) => placements.map((one) => [keyOf(one), one] as const)));
  return after.map((sheet) => {
    const placements = sheet.placements.map((one) => {
      const old = known.get(keyOf(one));
      return old !== undefined && isSameSpot(old, one) ? old : one;
    });
    return { ...sheet, placements };
  });
};

const isSameSpot = (a: Placement, b: Placement): boolean =>
  a.x === b.x && a.y === b.y && a.rotation === b.rotation && a.locked === b.locked;

/** The outline of a piece where it lies, on its sheet. */
export const ringAt = (outline: readonly Vec2[], spot: Pick<Spot, 'x' | 'y' | 'rotation'>): readonly Vec2[] =>
  laidRing({ outline }, spot);

/** Counts the sheets of a stock that may still be begun. */
export const hasAnother = ({ count }: Pick<Stock, 'count'>, sheets: Laid, stock: number): boolean =>
  count === null || sheets.filter((sheet) => sheet.stock === stock).length < count;

const freshSheet = (stock: number, index: number, { width, height, outline }: Stock): LaidSheet => ({
  stock,
  index,
  width,
  height,
  ...(outline ? { outline } : {}),
  used: 0,
  placements: [],
});

/** A sheet more of a stock, after its last. */
export const addSheet = (sheets: Laid, stock: number, spec: Stock): Laid => {
  const index = 1 + Math.max(-1, ...sheets.filter((sheet) => sheet.stock === stock).map((sheet) => sheet.index));
  const place = sheets.findIndex((sheet) => sheet.stock > stock);
  return sheets.toSpliced(place < 0 ? sheets.length : place, 0, freshSheet(stock, index, spec));
};

/** The sheets with a piece elsewhere; those that it neither leaves nor comes to stay the very same. */
export const movePiece = (sheets: Laid, piece: PieceToLay, spot: Spot, isLocked: boolean): Laid => {
  const { roof, layer, piece: index, copy } = piece;
  const { x, y, rotation } = spot;
  const placement: Placement = {
    ...{ roof, layer, piece: index, copy, x, y, rotation },
    ...(isLocked ? { locked: true as const } : {}),
  };
  const area = Math.abs(ringArea(piece.outline));
  return sheets.map((sheet) => {
    const place = sheet.placements.findIndex((one) => isSamePiece(one, piece));
    const isHere = sheet.stock === spot.stock && sheet.index === spot.index;
    if (place < 0 && !isHere) return sheet;
    const whole = sheet.width * sheet.height;
    const placements = isHere
      ? place < 0
        ? [...sheet.placements, placement]
        : sheet.placements.with(place, placement)
      : sheet.placements.toSpliced(place, 1);
    const gained = (isHere ? area : 0) - (place < 0 ? 0 : area);
    return { ...sheet, placements, used: sheet.used + gained / whole };
  });
};

/** The same outline turned about the middle of its box, counter-clockwise, radians. */
export const turnAbout = (outline: readonly Vec2[], spot: Spot, by: number): Spot => {
  const middle = middleOf(ringAt(outline, spot));
  const turned = { ...spot, rotation: tidyAngle(spot.rotation + by) };
  const now = middleOf(ringAt(outline, turned));
  return { ...turned, x: turned.x + middle[0] - now[0], y: turned.y + middle[1] - now[1] };
};

/** Between -180° and 180°, and whole degrees exactly where they are meant. */
const tidyAngle = (angle: number): number => {
  const degrees = (angle * 180) / Math.PI;
  const whole = Math.abs(degrees - Math.round(degrees)) < NOISE_MM ? Math.round(degrees) : degrees;
  const turned = (((whole % 360) + 540) % 360) - 180;
  return ((turned === -180 ? 180 : turned) * Math.PI) / 180;
};

export const middleOf = (ring: readonly Vec2[]): Vec2 => {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  return [(minX + maxX) / 2, (minY + maxY) / 2];
};

/** By how much a piece may be turned at a time, radians; null where its up has to stay. */
export const turnStep = (direction: Direction): number | null =>
  direction === 'one-way' ? null : direction === 'two-way' ? Math.PI : Math.PI / 12;

/** What keeps a piece from lying where it is. */
export interface Trouble {
  readonly kind: 'off-sheet' | 'overlap' | 'gap' | 'paper';
  /** The other piece. */
  readonly other?: PieceKey;
  /** mm that it is out by or too near by; of an overlap none. */
  readonly by?: number;
}

/** Everything that keeps a piece from lying where it does. */
export const troublesOf = (
  sheets: Laid,
  pieces: readonly PieceToLay[],
  stock: readonly Stock[],
  key: PieceKey,
): readonly Trouble[] => {
  const spot = spotOf(sheets, key);
  const known = piecesByKey(pieces);
  const piece = known.get(keyOf(key));
  const sheet = sheets.find((one) => one.stock === spot?.stock && one.index === spot.index);
  const paper = sheet && stock[sheet.stock];
  if (spot === null || piece === undefined || sheet === undefined || paper === undefined) return [];
  const ring = ringAt(piece.outline, spot);
  const troubles: Trouble[] = [];
  if (!piece.stock.includes(sheet.stock)) troubles.push({ kind: 'paper' });
  const out = reachOff(ring, paper);
  if (out > NOISE_MM) troubles.push({ kind: 'off-sheet', by: out });
  for (const other of sheet.placements) {
    if (isSamePiece(other, key)) continue;
    const ground = ringAt(known.get(keyOf(other))?.outline ?? [], other);
    if (ground.length === 0) continue;
    if (ringDepth(boxedRing(ring), boxedRing(ground)) > NOISE_MM) troubles.push({ kind: 'overlap', other });
    else if (paper.gap > 0) {
      const near = paper.gap - ringDistance(ring, ground);
      if (near > NOISE_MM) troubles.push({ kind: 'gap', other, by: near });
    }
  }
  return troubles;
};
