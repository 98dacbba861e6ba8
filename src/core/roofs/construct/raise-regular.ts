import type { Vec2 } from '../../geometry/vector.ts';
import { buildSolid } from '../../solid/build-solid.ts';
import type { Solid } from '../../solid/solid.ts';
import { regularCorners, regularSides } from '../regular.ts';
import { type Ring, stackRings } from './rings.ts';

/**
 * Like panels round an axis over a profile up the middle of each, from the eave to the top as [reach, level], mm. A profile that
 * ends over the middle ends in a peak, which then has a reach of nothing exactly; any other in a flat top.
 */
export const raiseRegular = (sides: number, profile: readonly Vec2[]): Solid =>
  buildSolid(
    stackRings({
      rings: profile.map(
        ([reach, level]): Ring => ({ level, corners: reach === 0 ? [[0, 0]] : regularCorners(sides, reach) }),
      ),
      sides: regularSides(sides),
    }),
  );
