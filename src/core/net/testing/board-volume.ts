import { at, ringArea } from '../../geometry/polygon.ts';
import { cross3, distance3, dot3, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { boardFacets } from '../board-body.ts';
import type { BoardCut, Piece } from '../net.ts';

/** Corners nearer than this are one, mm. */
const WELD_MM = 1e-6;

/**
 * What a panel of board as it is drawn holds, mm³, by the theorem of Gauss over its outside, its inside and its cut side, and the
 * edges that are not passed exactly once each way: none where the body is closed.
 */
export function boardVolume({ panels: [panel], board }: Pick<Piece, 'panels' | 'board'>): {
  readonly volume: number;
  readonly open: readonly string[];
} {
  if (!panel || !board) throw new Error('a panel of board');
  const facets = boardFacets(panel, board);
  const inside = (board.thickness * ringArea(board.inner)) / 3;
  const volume = facets.reduce((sum, [a, b, c]) => sum + dot3(a, cross3(b, c)) / 6, inside);
  return { volume, open: openEdges(board, facets) };
}

function openEdges(board: BoardCut, facets: readonly (readonly Vec3[])[]): readonly string[] {
  const known: Vec3[] = [];
  const nameOf = (p: Vec3): number => {
    const index = known.findIndex((q) => distance3(p, q) <= WELD_MM);
    return index < 0 ? known.push(p) - 1 : index;
  };
  const raised = (ring: readonly Vec2[], z: number): readonly Vec3[] => ring.map(([x, y]) => [x, y, z]);
  const rings = [raised(board.outer, 0), raised(board.inner, -board.thickness).toReversed(), ...facets];
  const passes = rings.flatMap((ring) => ring.map((p, i) => `${nameOf(p)}>${nameOf(at(ring, i + 1))}`));
  const count = (pass: string): number => passes.filter((one) => one === pass).length;
  return passes.filter((pass) => count(pass) !== 1 || count(pass.split('>').reverse().join('>')) !== 1);
}
