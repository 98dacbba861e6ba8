import { type BoxedRing, convexParts, ringDepth } from '../geometry/convex-parts.ts';
import { areApart, boxOf, ringDistance } from '../geometry/polygon.ts';
import { apply2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { PositionSpec, Stock } from '../project/project.ts';
import { NOISE_MM } from '../tolerance.ts';
import { checkPlacement } from './check-layout.ts';
import { laySheets, type Spot } from './lay-sheets.ts';
import type { LaidSheet, PieceToLay, Placement } from './layout.ts';
import { placementMotion } from './placed.ts';

/** A piece with the id of its roof. */
export interface NamedPiece extends PieceToLay {
  readonly roofId: string;
}

/**
 * The positions of a file as sheets with what lies on them. A position that says nothing of any use any more is left out with a
 * warning, and its piece is laid anew: the piece is not there or has changed, its paper is not for it, or it would lie off the
 * sheet, turned against the paper or on another piece.
 */
export function placePositions(
  pieces: readonly NamedPiece[],
  stock: readonly Stock[],
  positions: readonly PositionSpec[],
): { readonly fixed: readonly LaidSheet[]; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const known = new Map(pieces.map((piece) => [nameOf({ ...piece, roof: piece.roofId, piece: piece.id }), piece]));
  const placed: Placed = { pieces: new Set(), sheets: new Map() };
  const spots = positions.flatMap((position, i): readonly Spot[] => {
    const found = placeOne(known.get(nameOf(position)), stock, position, placed);
    if (!('code' in found)) return [found];
    issues.push(staleIssue(found, `positions[${i}]`));
    return [];
  });
  return { fixed: laySheets({ pieces, stock }, spots).sheets, issues };
}

/** The same text for a piece and for a position that is meant for it. */
const nameOf = ({ roof, layer, piece, copy }: Pick<PositionSpec, 'roof' | 'layer' | 'piece' | 'copy'>): string =>
  [roof, layer, piece, copy].join('\n');

/** What has its place already. */
interface Placed {
  readonly pieces: Set<NamedPiece>;
  readonly sheets: Map<string, Lying[]>;
}

interface Lying {
  readonly title: string;
  readonly ring: readonly Vec2[];
  readonly boxed: BoxedRing;
}

interface Refusal {
  readonly code: string;
  readonly message: string;
}

/** One position of its piece beside those that hold already; what holds is added to them. */
function placeOne(
  piece: NamedPiece | undefined,
  stock: readonly Stock[],
  position: PositionSpec,
  placed: Placed,
): Spot | Refusal {
  const { x, y, rotation, locked, sheet: index } = position;
  const why = (code: string, message: string): Refusal => ({ code: `position-${code}`, message });
  if (!piece) return why('no-piece', `There is no piece ${position.piece} of ${position.roof} in that layer and copy.`);
  const { title } = piece;
  if ((position.fingerprint ?? piece.fingerprint) !== piece.fingerprint)
    return why('changed', `${title} has another outline than when it was laid.`);
  const s = stock.findIndex(({ id }) => id === position.stock);
  const paper = stock[s];
  if (!paper || !piece.stock.includes(s)) return why('no-stock', `${title} is not cut from "${position.stock}".`);
  if (paper.count !== null && index >= paper.count)
    return why('no-sheet', `${title} lies on a sheet of ${paper.name} that is not there.`);
  if (placed.pieces.has(piece)) return why('twice', `${title} is given two positions.`);
  const key = { roof: piece.roof, layer: piece.layer, piece: piece.piece, copy: piece.copy };
  const placement: Placement = { ...key, x, y, rotation, ...(locked ? { locked } : {}) };
  const [wrong] = checkPlacement(piece, placement, s, paper);
  if (wrong) return why('off', wrong.message);
  const lying = lyingAt(piece, placement);
  const sheet = `${s}/${index}`;
  const others = placed.sheets.get(sheet) ?? [];
  placed.sheets.set(sheet, others);
  const onIt = others.find((other) => areTooNear(lying, other, paper.gap));
  if (onIt) return why('overlap', `${title} lies on ${onIt.title}, or nearer to it than the gap.`);
  placed.pieces.add(piece);
  others.push(lying);
  return { stock: s, index, placement };
}

const partsOf = new WeakMap<PieceToLay['outline'], ReturnType<typeof convexParts>>();

/** A piece where it lies. Parts of an outline are told once: they are asked for whenever a piece is moved. */
function lyingAt({ title, outline }: PieceToLay, placement: Placement): Lying {
  const parts = partsOf.get(outline) ?? convexParts(outline);
  partsOf.set(outline, parts);
  const motion = placementMotion(placement);
  const moved = (ring: readonly Vec2[]): readonly Vec2[] => ring.map((p) => apply2(motion, p));
  const ring = moved(outline);
  const boxed = parts.map((part) => {
    const there = moved(part);
    return { ring: there, box: boxOf(there) };
  });
  return { title, ring, boxed: { box: boxOf(ring), parts: boxed } };
}

const areTooNear = (a: Lying, b: Lying, gap: number): boolean =>
  !areApart(a.boxed.box, b.boxed.box, gap) &&
  (ringDepth(a.boxed, b.boxed) > NOISE_MM || (gap > 0 && ringDistance(a.ring, b.ring) < gap - NOISE_MM));

const staleIssue = ({ code, message }: Refusal, path: string): Issue => ({
  level: 'warning',
  code,
  path,
  message,
  remedy: 'The piece is laid anew; leave out the position, or put the piece where it can lie.',
});
