import { at, ringArea } from '../../../geometry/polygon.ts';
import { cross2, length2, sub2, type Vec3 } from '../../../geometry/vector.ts';
import type { Skeleton, SkeletonInput } from './skeleton.ts';

export interface SkeletonFaults {
  /** Share of the outline's area that is covered twice or not at all. */
  readonly area: number;
  /** Largest distance in plan of a face's corner from where its plane has that corner's level. */
  readonly offPlane: number;
  /** Face edges that no other face, and no eave, has on its other side. */
  readonly open: number;
}

/**
 * How far a skeleton is from a roof: the faces cover the outline once, each lies in the plane that rises from its eave with
 * its profile, and they close on each other edge by edge.
 */
export function measureFaults(input: SkeletonInput, { nodes, faces }: Skeleton): SkeletonFaults {
  const eaves = input.rings.flatMap((ring) => ring.map((p, i) => [p, at(ring, i + 1)] as const));
  const total = input.rings.reduce((sum, ring) => sum + ringArea(ring), 0);
  let covered = 0;
  let offPlane = 0;
  const arcs = new Set<string>();
  let twice = 0;
  for (const { edge, stage, loop } of faces) {
    covered += Math.abs(ringArea(loop.map((n) => [nodes[n]?.[0] ?? 0, nodes[n]?.[1] ?? 0])));
    loop.forEach((from, i) => {
      const key = `${from}-${at(loop, i + 1)}`;
      if (arcs.has(key)) twice++;
      arcs.add(key);
    });
    const eave = eaves[edge];
    if (!eave) continue;
    const along = sub2(eave[1], eave[0]);
    for (const n of loop) {
      const [x, y, z] = nodes[n] as Vec3;
      const run = cross2(along, sub2([x, y], eave[0])) / length2(along);
      offPlane = Math.max(offPlane, Math.abs(run - runAt(input, edge, stage, z)));
    }
  }
  const unmatched = [...arcs].filter((key) => !arcs.has(key.split('-').reverse().join('-'))).length;
  return { area: Math.abs(covered / total - 1), offPlane, open: Math.abs(unmatched - eaves.length) + twice };
}

/** How far in from the eave the plane of a stage has come at a level. */
export function runAt(input: SkeletonInput, edge: number, stage: number, level: number): number {
  const stages = input.profiles[edge] ?? [];
  let run = 0;
  for (let s = 0; s <= stage; s++) {
    const { level: start = 0, speed = 0 } = stages[s] ?? {};
    const end = s === stage ? level : (stages[s + 1]?.level ?? level);
    run += speed * (end - start);
  }
  return run;
}
