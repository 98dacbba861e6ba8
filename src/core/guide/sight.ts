import { cross3, dot3, length3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';

/**
 * How a point of space is seen: x to the right and y up in the picture, and how near it is to the eye; all mm. Lines stay lines
 * and planes stay planes in these three numbers, seen from far away or from near, so that one reckoning serves both.
 */
export type Sight = (p: Vec3) => Vec3;

/** Directions of a picture in space, of length 1. */
interface PictureAxes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toEye: Vec3;
}

/** The picture's up is as near to upright as can be; looked at from straight above, north is up. */
function axesTowards(direction: Vec3): PictureAxes {
  const toEye = unit3(direction);
  const level = length3([toEye[0], toEye[1], 0]);
  const right: Vec3 = level === 0 ? [1, 0, 0] : [-toEye[1] / level, toEye[0] / level, 0];
  return { right, up: cross3(toEye, right), toEye };
}

/** Seen from far away along a direction: parallel lines stay parallel, and lengths across are true. */
export function sightFrom(direction: Vec3): Sight {
  const { right, up, toEye } = axesTowards(direction);
  return (p) => [dot3(p, right), dot3(p, up), dot3(p, toEye)];
}

/**
 * Seen by an eye in space that looks at a point; lengths are true in the plane through that point across the view. All that is
 * looked at lies in front of the eye. Nearness is D²/z - D at the distance z: planes stay planes
 * under no other measure but this and its multiples.
 */
export function sightAt(eye: Vec3, target: Vec3): Sight {
  const { right, up, toEye } = axesTowards(sub3(eye, target));
  const distance = length3(sub3(eye, target));
  return (p) => {
    const away = sub3(p, eye);
    const depth = -dot3(away, toEye);
    const [x, y] = [dot3(away, right), dot3(away, up)];
    const share = distance / depth;
    return [x * share, y * share, distance * (share - 1)];
  };
}

/** From the front, the right and above, all alike: isometric (ISO 5456-3). */
export const isometric: Sight = sightFrom([1, -1, 1]);
