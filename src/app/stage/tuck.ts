import type { Pose } from '../../core/fold/pose.ts';
import { dot3, type Vec3 } from '../../core/geometry/vector.ts';
import type { Net } from '../../core/net/net.ts';
import type { Solid } from '../../core/solid/solid.ts';

/** Air between a glued flap and its panel as drawn, mm: enough to keep the two apart in depth. */
const air = 0.25;

/** How far slopes stand out as drawn, mm: they hide the top edge of a wall that ends in their surface. */
const proud = 0.12;

/**
 * How far every panel and flap moves along its own printed side's normal once folded, in owner order, mm: slopes a little
 * out, flaps to just below the panel they hold. `done`: the pose on the body. A flap whose printed side turns away from
 * that panel (at an abutment) moves the other way.
 */
export const tuckFlaps = (solid: Solid, net: Net, done: Pose, thickness: number): readonly number[] => {
  const facing = new Map<number, Vec3>();
  net.pieces.forEach((piece, p) => {
    piece.panels.forEach((panel, i) => {
      const rotation = done.pieces[p]?.panels[i]?.motion.rotation;
      if (rotation !== undefined) facing.set(panel.face, [rotation[0][2], rotation[1][2], rotation[2][2]]);
    });
  });
  return net.pieces.flatMap((piece, p) => [
    ...piece.panels.map(({ face }) => (solid.faces[face]?.part === 'slope' ? proud : 0)),
    ...piece.flaps.map((flap, i) => {
      const rotation = done.pieces[p]?.flaps[i]?.motion.rotation;
      const host = facing.get(flap.to);
      if (rotation === undefined || host === undefined) return 0;
      const isTurned = dot3([rotation[0][2], rotation[1][2], rotation[2][2]], host) < 0;
      return isTurned ? 2 * thickness + air : -thickness - air;
    }),
    ...piece.hems.map(() => 0),
  ]);
};
