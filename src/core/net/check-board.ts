import { boxOf, convexOverlap, ringDistance } from '../geometry/polygon.ts';
import { add3, cross3, dot3, scale3, sub3, unit3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { faceFrame } from '../solid/face-frame.ts';
import { edgesOfFaces, isFootOnFace } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { NOISE_MM, NOISE_MM2 } from '../tolerance.ts';
import type { BoardEdgeCut } from './board-edges.ts';
import type { Net, Piece } from './net.ts';

type Report = (code: string, message: string, numbers?: Record<string, number>) => void;

/** A board is looked at so many times its thickness farther from its edge than it is cut back. */
const REACH = 4;

/**
 * Proves boards by a section across each of their edges: two that meet touch and do not run into each other, none stands out
 * beyond the shape, and a free edge stays above the plane it ends in. Outlines start at their corner.
 */
export function checkBoards(solid: Solid, net: Net, found: Report): void {
  const cuts = new Map<number, readonly BoardEdgeCut[]>();
  for (const piece of net.pieces) {
    const face = piece.panels[0]?.face;
    if (!piece.board || face === undefined) continue;
    cuts.set(face, piece.board.edges);
    const box = boxOf(piece.outline);
    const corner = Math.max(
      Math.abs(box.minX),
      Math.abs(box.minY),
      Math.abs(box.maxX - piece.width),
      Math.abs(box.maxY - piece.height),
    );
    if (!(corner <= NOISE_MM))
      found('piece-frame', `The piece ${piece.title} does not start at its corner.`, { corner });
  }
  const edgesOf = edgesOfFaces(solid);
  solid.edges.forEach((edge, e) => {
    const [first, second] = edge.faces as readonly [number, number?];
    const own = cutAt(cuts, edgesOf, first, e);
    const { thickness } = boardOf(net, first) ?? { thickness: 0 };
    if (!own || thickness === 0) return;
    if (second === undefined) return;
    const section = across(solid, edge);
    const isHost = edge.role === 'abutment';
    const other = isHost ? null : cutAt(cuts, edgesOf, second, e);
    const far = Math.max(own.outer, own.inner, other?.outer ?? 0, other?.inner ?? 0) + REACH * thickness;
    const mine = section.board(first, own, { far, thickness });
    const theirs = isHost
      ? section.slab(second, { far, thickness })
      : other && section.board(second, other, { far, thickness });
    if (!theirs) {
      found('board-missing', `The edge ${edge.id} is cut on one of its boards only.`);
      return;
    }
    const overlap = convexOverlap(mine, theirs);
    // A sliver as thin as the noise along the whole of a section is none.
    if (overlap > NOISE_MM2 + NOISE_MM * far) {
      found('boards-overlap', `The boards at ${edge.id} run into each other.`, { overlap });
    }
    const gap = ringDistance(mine, theirs);
    if (gap > NOISE_MM) found('boards-apart', `The boards at ${edge.id} do not meet.`, { gap });
    // Over a hip neither stands out beyond the outside of the other.
    if (isHost || edge.dihedral === null || edge.dihedral > Math.PI || isFootOnFace(solid, e)) return;
    const out = Math.max(
      ...mine.map((p) => section.outside(second, p)),
      ...theirs.map((p) => section.outside(first, p)),
    );
    if (out > NOISE_MM) found('board-outside', `A board at ${edge.id} stands out beyond the shape.`, { out });
  });
}

const boardOf = ({ pieces }: Net, face: number): Piece['board'] =>
  pieces.find(({ panels }) => panels[0]?.face === face)?.board;

const cutAt = (
  cuts: ReadonlyMap<number, readonly BoardEdgeCut[]>,
  edgesOf: readonly (readonly number[])[],
  face: number,
  edge: number,
): BoardEdgeCut | undefined => cuts.get(face)?.[edgesOf[face]?.indexOf(edge) ?? -1];

/** How far from the edge a section reaches, and the thickness of the board, mm. */
interface Size {
  readonly far: number;
  readonly thickness: number;
}

/** The plane square to an edge: origin on it, seen along the loop of its first face. */
function across(
  solid: Solid,
  { ends, faces, role, inset = 0 }: Edge,
): {
  readonly board: (face: number, cut: BoardEdgeCut, size: Size) => readonly Vec2[];
  readonly slab: (face: number, size: Size) => readonly Vec2[];
  readonly outside: (face: number, p: Vec2) => number;
} {
  const [a, b] = ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
  const along = unit3(sub3(b, a));
  const up = faceFrame(solid, faces[0] as number).normal;
  const left = cross3(up, along);
  const flat = (p: Vec3): Vec2 => [dot3(p, left), dot3(p, up)];
  const normalOf = (face: number): Vec3 => faceFrame(solid, face).normal;
  /** Into the panel from its edge. */
  const intoOf = (face: number): Vec3 => {
    const isFirst = face === faces[0];
    return cross3(normalOf(face), isFirst || role === 'abutment' ? along : scale3(along, -1));
  };
  const quad = (
    face: number,
    [outer, inner]: readonly [number, number],
    far: number,
    thickness: number,
  ): readonly Vec2[] => {
    const [into, down] = [intoOf(face), scale3(normalOf(face), -thickness)];
    const ring = [
      scale3(into, outer),
      scale3(into, far),
      add3(scale3(into, far), down),
      add3(scale3(into, inner), down),
    ].map(flat);
    return ringTurn(ring) > 0 ? ring : ring.toReversed();
  };
  return {
    board: (face, { outer, inner }, { far, thickness }) => quad(face, [outer, inner], far, thickness),
    slab: (face, { far, thickness }) => {
      const [x, y] = flat(scale3(normalOf(face), inset));
      return quad(face, [-far, -far], far, thickness).map(([u, v]): Vec2 => [u + x, v + y]);
    },
    outside: (face, [x, y]) => dot3(normalOf(face), add3(scale3(left, x), scale3(up, y))),
  };
}

const ringTurn = (ring: readonly Vec2[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length] as Vec2;
    return sum + x * v - y * u;
  }, 0);
