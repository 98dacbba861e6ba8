import { distance2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { type Edge, edgePath, type Solid } from '../solid/solid.ts';
import { SNAP_MM } from '../tolerance.ts';
import { addEdge, type GrowingSolid } from './grow-solid.ts';

/**
 * Adds a level plate that closes the roof at its eaves: one face, seen from below, whose edges meet the inside of the slopes there.
 * Fails where the eaves do not go round in one ring of one level.
 */
export function addPlate(grown: GrowingSolid, solid: Solid): Result<{ readonly face: number; readonly level: number }> {
  const eaves = solid.edges.filter(
    ({ role, faces }) => role === 'eave' && solid.faces[faces[0] as number]?.part === 'slope',
  );
  const levelOf = ({ ends }: Edge): number => solid.vertices[ends[0]]?.[2] ?? 0;
  const level = Math.min(...eaves.map(levelOf));
  const left = new Set(eaves.filter((edge) => levelOf(edge) - level <= SNAP_MM));
  const [first] = left;
  if (!first) return fail(noPlate);
  const ring: Edge[] = [];
  for (let edge: Edge | undefined = first; edge && left.delete(edge); ) {
    ring.push(edge);
    const end: number = edge.ends[1];
    edge = [...left].find(({ ends }) => ends[0] === end);
  }
  if (left.size > 0 || ring.at(-1)?.ends[1] !== first.ends[0]) return fail(noPlate);
  // Seen from below the ring goes round the other way.
  const [start, ...others] = ring;
  const loop = [start as Edge, ...others.toReversed()].flatMap((edge) => edgePath(edge).slice(1).toReversed());
  const sampled = loop.map((v) => solid.vertices[v] as Vec3).map(([x, y]): Vec2 => [x, y]);
  if (sampled.some((p, i) => distance2(p, sampled[(i + 1) % sampled.length] as Vec2) <= SNAP_MM)) return fail(noPlate);
  const face = grown.faces.push({ id: 'plate', title: 'Plate', part: 'wall', side: 'plate', loop }) - 1;
  for (const edge of ring) addEdge(grown, edgePath(edge).toReversed(), [face, edge.faces[0] as number], 'eave');
  return succeed({ face, level });
}

const noPlate: Issue = {
  level: 'error',
  code: 'seat-no-plate',
  path: 'seat.plate',
  message: 'A plate closes a roof whose eaves go all round at one level; here they do not.',
  remedy: 'Leave out the plate: the collar then follows the slopes.',
};
