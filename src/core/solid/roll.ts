import { type Motion, move3 } from '../geometry/motion.ts';
import { cross3, length2, length3, type Vec2, type Vec3 } from '../geometry/vector.ts';

/**
 * The surfaces that paper takes when it is rolled: straight rulings stay straight and nothing stretches. Frame: that of the
 * flat panel (x to the right, y up, z towards the eye on the printed side); the paper bends away from the eye, and touches
 * its flat self along the ruling through the origin.
 */
export type RolledSurface =
  | {
      readonly form: 'cone';
      /** The rulings run down from (0, apex), which may lie beyond the panel; mm, over 0. */
      readonly apex: number;
      /** Radius over slant: the sine of half the angle at the peak, under 1. */
      readonly sine: number;
    }
  | {
      readonly form: 'cylinder';
      /** mm */
      readonly radius: number;
      /** The rulings run up the panel (`y`) or across it (`x`). */
      readonly rulings: 'x' | 'y';
    };

/** How a smooth face lies flat, and how it bends. Positions count along the face's loop. */
export interface Roll {
  readonly surface: RolledSurface;
  /** Where each corner of the loop lies flat, mm. */
  readonly flat: readonly Vec2[];
  /** The straight lines of the surface, in order across it: both ends by their positions. The first and last may bound it. */
  readonly rulings: readonly (readonly [number, number])[];
  /** Positions of true corners; the others sample a curve. */
  readonly corners: readonly number[];
  /** The sampled outline keeps within this of the true one, mm. */
  readonly deviation: number;
}

/** A point of the bent paper with the axes of its tangent plane: across the ruling, up the paper, away from the paper. */
interface Place {
  readonly point: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
}

/**
 * Where a point of the flat panel is once the paper has taken `share` of its bend (0 flat, 1 the surface).
 * A cone opens through wider cones of the same slant; a cylinder through cylinders of larger radius.
 */
export const bendPoint = (surface: RolledSurface, p: Vec2, share: number): Vec3 => placeOn(surface, p, share).point;

/** The rigid motion that carries the paper round a flat point to its place in the bent sheet. */
export function bendMotion(surface: RolledSurface, p: Vec2, share: number): Motion {
  const { point, x, y } = placeOn(surface, p, share);
  const z = cross3(x, y);
  const turn: Motion = {
    rotation: [
      [x[0], y[0], z[0]],
      [x[1], y[1], z[1]],
      [x[2], y[2], z[2]],
    ],
    move: [0, 0, 0],
  };
  const [a, b, c] = move3(turn, [p[0], p[1], 0]);
  return { ...turn, move: [point[0] - a, point[1] - b, point[2] - c] };
}

function placeOn(surface: RolledSurface, p: Vec2, share: number): Place {
  return surface.form === 'cone' ? placeOnCone(surface, p, share) : placeOnCylinder(surface, p, share);
}

function placeOnCone({ apex, sine }: { apex: number; sine: number }, [px, py]: Vec2, share: number): Place {
  const opened = 1 + (sine - 1) * share;
  const cosine = Math.sqrt((1 - opened) * (1 + opened));
  const [slant, angle] = polarOn({ apex }, [px, py]);
  const azimuth = angle / opened;
  const [ca, sa] = [Math.cos(azimuth), Math.sin(azimuth)];
  // By the axis of the cone down it (0, -cosine, -opened) and the level direction of the middle ruling (0, -opened, cosine).
  const along: Vec3 = [ca, opened * sa, -cosine * sa];
  const ruling: Vec3 = [opened * sa, -cosine * cosine - opened * opened * ca, opened * cosine * (ca - 1)];
  // Flat, the ruling points down at `angle` from the middle one, so that the panel's own axes are turned back by it.
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return {
    point: [slant * ruling[0], apex + slant * ruling[1], slant * ruling[2]],
    x: [along[0] * c + ruling[0] * s, along[1] * c + ruling[1] * s, along[2] * c + ruling[2] * s],
    y: [along[0] * s - ruling[0] * c, along[1] * s - ruling[1] * c, along[2] * s - ruling[2] * c],
  };
}

function placeOnCylinder(
  { radius, rulings }: { radius: number; rulings: 'x' | 'y' },
  [px, py]: Vec2,
  share: number,
): Place {
  const across = rulings === 'y' ? px : py;
  const angle = (across * share) / radius;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  // Half-angle forms, which hold for flat paper too.
  const half = angle / 2;
  const shrink = half === 0 ? 1 : Math.sin(half) / half;
  const [over, down] = [across * shrink * Math.cos(half), -across * shrink * Math.sin(half)];
  return rulings === 'y'
    ? { point: [over, py, down], x: [c, 0, -s], y: [0, 1, 0] }
    : { point: [px, over, down], x: [1, 0, 0], y: [0, c, -s] };
}

/** Where a point of the bent surface lies on the flat panel; the inverse of `bendPoint` at share 1. */
export function unbendPoint(surface: RolledSurface, point: Vec3): Vec2 {
  const { azimuth, reach } = rulingUnder(surface, point);
  if (surface.form === 'cylinder') {
    const across = surface.radius * azimuth;
    return surface.rulings === 'y' ? [across, reach] : [reach, across];
  }
  const angle = azimuth * surface.sine;
  return [reach * Math.sin(angle), surface.apex - reach * Math.cos(angle)];
}

/** A point in the plane that touches a surface, and the plane's normal away from the paper. */
export interface Touch {
  readonly point: Vec3;
  readonly normal: Vec3;
}

/** The plane that touches the surface along the ruling under a point (mm, frame of the flat panel); on the axis, along the middle one. */
export function touchUnder(surface: RolledSurface, [x, y, z]: Vec3): Touch {
  if (surface.form === 'cylinder') {
    const { radius, rulings } = surface;
    const [c, s] = directionOf(radius + z, rulings === 'y' ? x : y);
    const down = radius * (c - 1);
    return rulings === 'y'
      ? { point: [radius * s, y, down], normal: [s, 0, c] }
      : { point: [x, radius * s, down], normal: [0, s, c] };
  }
  const { apex, sine } = surface;
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const [c, s] = directionOf(cosine * z - sine * (y - apex), x);
  // Out from the axis by the cosine and up along it by the sine.
  return { point: [0, apex, 0], normal: [s * cosine, sine * cosine * (1 - c), c * cosine * cosine + sine * sine] };
}

/**
 * A point by its ruling, in the frame of the flat panel: the ruling's angle round the axis from the middle one, radians, and
 * how far along it the point lies, mm: down from the peak of a cone, along the axis of a cylinder.
 */
export interface OnRuling {
  readonly azimuth: number;
  readonly reach: number;
}

/** The ruling under a point (mm, frame of the flat panel); of one on the axis of a cone, the middle one. */
export function rulingUnder(surface: RolledSurface, [x, y, z]: Vec3): OnRuling {
  if (surface.form === 'cylinder') {
    const [across, reach] = surface.rulings === 'y' ? [x, y] : [y, x];
    return { azimuth: Math.atan2(across, surface.radius + z), reach };
  }
  const { apex, sine } = surface;
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  return { azimuth: Math.atan2(x, cosine * z - sine * (y - apex)), reach: length3([x, y - apex, z]) };
}

/** A ruling of a surface in its place: a point on it, the unit direction in which `reach` grows, and the normal away from the paper. */
export interface Ruling extends Touch {
  readonly along: Vec3;
}

/** The inverse of `rulingUnder` for points on the surface (mm, frame of the flat panel). */
export function rulingAt(surface: RolledSurface, { azimuth, reach }: OnRuling): Ruling {
  const [c, s] = [Math.cos(azimuth), Math.sin(azimuth)];
  if (surface.form === 'cylinder') {
    const { radius, rulings } = surface;
    const down = radius * (c - 1);
    return rulings === 'y'
      ? { point: [radius * s, reach, down], normal: [s, 0, c], along: [0, 1, 0] }
      : { point: [reach, radius * s, down], normal: [0, s, c], along: [1, 0, 0] };
  }
  const { apex, sine } = surface;
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const along: Vec3 = [sine * s, -cosine * cosine - sine * sine * c, sine * cosine * (c - 1)];
  return {
    point: [reach * along[0], apex + reach * along[1], reach * along[2]],
    normal: [s * cosine, sine * cosine * (1 - c), c * cosine * cosine + sine * sine],
    along,
  };
}

/** Cosine and sine of the direction of a point, from the first axis to the second; of the first at the origin. */
function directionOf(first: number, second: number): Vec2 {
  const size = Math.sqrt(first * first + second * second);
  return size === 0 ? [1, 0] : [first / size, second / size];
}

/** Slant and angle of a flat point about the flat peak of a cone, from the middle ruling. */
export const polarOn = ({ apex }: { readonly apex: number }, [x, y]: Vec2): Vec2 => [
  length2([x, apex - y]),
  Math.atan2(x, apex - y),
];

/** Length of the paper between two neighbouring points of a sampled curve, mm: along the arc where they keep their reach. */
export function lengthBetween(surface: RolledSurface, p: OnRuling, q: OnRuling): number {
  const radius = surface.form === 'cylinder' ? surface.radius : (surface.sine * (p.reach + q.reach)) / 2;
  return length2([q.reach - p.reach, radius * (q.azimuth - p.azimuth)]);
}
