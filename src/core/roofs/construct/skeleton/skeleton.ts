import type { Vec2, Vec3 } from '../../../geometry/vector.ts';

/** One stretch of an eave edge's slope: from this level on its run per rise is so much. The first stage starts at 0. */
export interface Stage {
  readonly level: number;
  readonly speed: number;
}

export interface SkeletonInput {
  /** Outline counter-clockwise first, then holes clockwise; not closed, no corner twice. */
  readonly rings: readonly (readonly Vec2[])[];
  /** For each edge, ring after ring (edge i of a ring goes from corner i to the next): its stages by rising level. */
  readonly profiles: readonly (readonly Stage[])[];
  /** The roof ends in a flat top at this level. */
  readonly cap?: number;
}

export interface SkeletonFace {
  /** The eave edge it rises from, counted ring after ring, and the stage of its profile; -1 for a flat top. */
  readonly edge: number;
  readonly stage: number;
  /** Node indices, counter-clockwise in plan. */
  readonly loop: readonly number[];
}

export interface Skeleton {
  /** Plan and level. */
  readonly nodes: readonly Vec3[];
  readonly faces: readonly SkeletonFace[];
}
