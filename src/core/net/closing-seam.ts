import type { Issue, Place } from '../issue.ts';
import { faceNormal } from '../solid/face-frame.ts';
import { edgePath, type Face, type Solid } from '../solid/solid.ts';
import type { Closing, Piece, Seam } from './net.ts';

/** How near to an open edge a seam ends: at an eave or foot a hand reaches it from below, else from an open end or top. */
const REACH = { none: 0, open: 1, below: 2 } as const;

/**
 * How the roof closes. The last piece to go on is one that carries no flap to another, laid on the flaps of its neighbours from
 * outside: of several the one that faces farthest from the front. Where there is none, one seam is joined last, from inside: one
 * that ends at an eave, so that a hand reaches it; of those with a flap before others, and the one that faces farthest from the
 * front. Null where nothing is joined.
 */
export function closingOf(solid: Solid, pieces: readonly Piece[], seams: readonly Seam[]): Closing | null {
  if (seams.length === 0) return null;
  const carriers = new Map<number, Set<number>>();
  pieces.forEach(({ flaps, strip }, p) => {
    if (!strip) for (const { edge } of flaps) carriers.set(edge, (carriers.get(edge) ?? new Set()).add(p));
  });
  const carries = (piece: number, edge: number): boolean => carriers.get(edge)?.has(piece) === true;
  const between = seams.filter(({ sides: [a, b] }) => a.piece !== b.piece);
  const held = new Set(
    between.flatMap(({ edge, join, sides: [a, b] }) => {
      if (join === 'strip') return [a.piece, b.piece];
      if (join !== 'flap') return [];
      return [carries(a.piece, edge) ? b.piece : a.piece];
    }),
  );
  const carrying = new Set(
    between.flatMap(({ edge, sides }) => sides.flatMap(({ piece }) => (carries(piece, edge) ? [piece] : []))),
  );
  const plain = [...held].filter((piece) => !carrying.has(piece)).sort((a, b) => a - b);
  const [first] = plain;
  if (first !== undefined) {
    const piece = plain.reduce((best, p) => (frontness(solid, pieces[p]) < frontness(solid, pieces[best]) ? p : best));
    return { piece, seam: null, isReachable: true };
  }
  const reach = reachOf(solid);
  const facing = (seam: Seam): number =>
    Math.max(...seam.sides.map(({ piece, panel }) => southward(solid, pieces[piece]?.panels[panel]?.face)));
  const isBetter = (a: Seam, b: Seam): boolean => {
    const order = [reach(a.edge) - reach(b.edge), Number(a.join === 'flap') - Number(b.join === 'flap')];
    const decided = order.find((difference) => difference !== 0);
    return decided === undefined ? facing(a) < facing(b) : decided > 0;
  };
  const choices = between.length > 0 ? between : seams;
  const last = choices.reduce((best, seam) => (isBetter(seam, best) ? seam : best));
  const from = last.sides.find(({ piece }) => carries(piece, last.edge));
  return {
    piece: (from ?? last.sides[0]).piece,
    seam: last.edge,
    isReachable: reach(last.edge) > REACH.none,
  };
}

/** How far a face looks to the front (south), -1 to 1; rounded, so that a hair does not decide. */
function southward(solid: Solid, face: number | undefined): number {
  if (face === undefined) return 0;
  return Number((-faceNormal(solid.vertices, solid.faces[face] as Face)[1]).toFixed(6));
}

const frontness = (solid: Solid, piece: Piece | undefined): number =>
  Math.max(...(piece?.panels ?? []).map(({ face }) => southward(solid, face)));

function reachOf(solid: Solid): (edge: number) => number {
  const open = new Map<number, number>();
  for (const edge of solid.edges) {
    if (edge.faces.length !== 1) continue;
    const way = edge.role === 'eave' || edge.role === 'foot' ? REACH.below : REACH.open;
    for (const v of edgePath(edge)) open.set(v, Math.max(way, open.get(v) ?? REACH.none));
  }
  return (edge) => Math.max(...(solid.edges[edge]?.ends ?? []).map((v) => open.get(v) ?? REACH.none));
}

/** What to say of it; nothing where a plain piece goes on last. */
export function closingIssues(closing: Closing | null, seam: string, place: Place): readonly Issue[] {
  if (closing === null || closing.seam === null) return [];
  return [
    closing.isReachable
      ? {
          level: 'note',
          code: 'closing-seam',
          path: '',
          place,
          message: `Join the ${seam} last: no piece is without flaps to close over it, but here a hand reaches in from the open edge.`,
        }
      : {
          level: 'note',
          code: 'closing-out-of-reach',
          path: '',
          place,
          message: `Whichever seam is joined last, no hand reaches it from inside; the ${seam} is taken.`,
          remedy: 'Press it on from outside, or join it by tape on the outside.',
        },
  ];
}
