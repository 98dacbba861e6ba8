import { crossing, levelsOver, slopeFacets } from '../../fit/rest.ts';
import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import type { Issue } from '../../issue.ts';
import { edgePath, type Solid } from '../../solid/solid.ts';
import { SNAP_MM } from '../../tolerance.ts';
import { carriesFascia } from './fascia.ts';

/**
 * How far a fascia may hang down from the free eaves of a solid before it meets a slope below one of them, mm, and from which
 * edges it would; without end where nothing lies below. Slopes fall evenly, so only the ends of eaves and the places where they
 * pass over an edge of the roof are looked at.
 */
export function fasciaRoom(solid: Solid): { readonly room: number; readonly edges: readonly string[] } {
  const facets = slopeFacets(solid);
  const plan = (v: number): Vec2 => [solid.vertices[v]?.[0] ?? 0, solid.vertices[v]?.[1] ?? 0];
  const lines = solid.edges.map(({ ends: [a, b] }) => [plan(a), plan(b)] as const);
  const found = solid.edges
    .filter((edge) => carriesFascia(solid, edge))
    .map((edge) => {
      const path = edgePath(edge);
      const level = (solid.vertices[path[0] as number] as Vec3)[2];
      const places = path.slice(1).flatMap((v, i) => {
        const [p, q] = [plan(path[i] as number), plan(v)];
        return [
          p,
          q,
          ...lines.flatMap(([a, b]): Vec2[] => {
            const place = crossing(p, q, a, b);
            return place ? [place] : [];
          }),
        ];
      });
      const below = places.flatMap((place) => levelsOver(facets, place).filter((z) => z < level - SNAP_MM));
      return { id: edge.id, room: level - Math.max(Number.NEGATIVE_INFINITY, ...below) };
    });
  const room = Math.min(Number.POSITIVE_INFINITY, ...found.map((one) => one.room));
  return { room, edges: found.filter((one) => one.room === room).map((one) => one.id) };
}

export const fasciaTooHigh = (drop: number, room: number, edges: readonly string[]): Issue => ({
  level: 'error',
  code: 'fascia-meets-slope',
  path: 'fascia',
  numbers: { drop, room },
  message: 'A fascia {drop} high would go through the slope below the upper eave, which lies {room} under it.',
  remedy: 'Make it less high than {room}, or the wall between the roofs higher.',
  place: { edges },
});
