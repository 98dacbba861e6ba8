import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import type { FaceDraft } from '../../solid/build-solid.ts';

/** What every face has beside its shape. */
export type FaceName = Pick<FaceDraft, 'id' | 'title' | 'part' | 'side'>;

/** Radians, counter-clockwise from the east. The face looks to the middle of them. */
export interface Azimuths {
  readonly from: number;
  readonly to: number;
}

/** Both halves of a round roof. They meet in front, where the paper goes straight on, and at the back. */
export const halves: readonly (Azimuths & { readonly id: string; readonly title: string })[] = [
  { id: 'west', title: 'West half', from: -1.5 * Math.PI, to: -0.5 * Math.PI },
  { id: 'east', title: 'East half', from: -0.5 * Math.PI, to: 0.5 * Math.PI },
];

const deviationOf = (radius: number, step: number): number => radius * (1 - Math.cos(step / 2));

// Adding nothing turns minus nothing, which is written differently, into nothing.
const onCircle = (radius: number, azimuth: number, z: number): Vec3 => [
  radius * Math.cos(azimuth) + 0,
  radius * Math.sin(azimuth) + 0,
  z,
];

const countUp = (count: number): number[] => Array.from({ length: count + 1 }, (_, i) => i);

/** A level circle of a round roof about the z axis, mm. */
export interface Circle {
  readonly radius: number;
  readonly z: number;
}

/**
 * Part of a cone about the z axis between two level circles, the upper one smaller or a peak of radius 0. Laid flat it is part
 * of a ring about the peak; its angle is that of the azimuths times radius over slant.
 */
export function coneFace(name: FaceName, { from, to }: Azimuths, low: Circle, high: Circle, steps: number): FaceDraft {
  const inward = low.radius - high.radius;
  const sine = inward / Math.hypot(inward, high.z - low.z);
  const apex = low.radius / sine;
  const step = (to - from) / steps;
  const flat = (radius: number, i: number): Vec2 => {
    const angle = sine * step * (i - steps / 2);
    const slant = radius / sine;
    return [slant * Math.sin(angle) + 0, apex - slant * Math.cos(angle)];
  };
  const isPeak = high.radius === 0;
  const below = countUp(steps).map((i) => ({ i, circle: low }));
  const above = isPeak ? [{ i: steps / 2, circle: high }] : below.map(({ i }) => ({ i: steps - i, circle: high }));
  const loop = [...below, ...above];
  const last = loop.length - 1;
  return {
    ...name,
    points: loop.map(({ i, circle }) => onCircle(circle.radius, from + step * i, circle.z)),
    roll: {
      surface: { form: 'cone', apex, sine },
      flat: loop.map(({ i, circle }) => flat(circle.radius, i)),
      rulings: countUp(steps).map((i) => [isPeak ? last : last - i, i]),
      corners: isPeak ? [0, steps, last] : [0, steps, steps + 1, last],
      deviation: deviationOf(low.radius, step),
    },
  };
}

/** Part of an upright cylinder about the z axis between two levels; laid flat it is a rectangle as wide as the arc is long. */
export function cylinderFace(
  name: FaceName,
  { from, to }: Azimuths,
  { radius, z }: Circle,
  height: number,
  steps: number,
): FaceDraft {
  const step = (to - from) / steps;
  const below = countUp(steps).map((i) => ({ i, y: 0 }));
  const loop = [...below, ...below.toReversed().map(({ i }) => ({ i, y: height }))];
  const last = loop.length - 1;
  return {
    ...name,
    points: loop.map(({ i, y }) => onCircle(radius, from + step * i, z + y)),
    roll: {
      surface: { form: 'cylinder', radius, rulings: 'y' },
      flat: loop.map(({ i, y }) => [radius * step * (i - steps / 2), y]),
      rulings: countUp(steps).map((i) => [last - i, i]),
      corners: [0, steps, steps + 1, last],
      deviation: deviationOf(radius, step),
    },
  };
}

/** A flat face bounded by one or more circles' samples, counter-clockwise seen from above. */
export const discFace = (
  name: FaceName,
  { radius, z }: Circle,
  parts: readonly Azimuths[],
  steps: number,
): FaceDraft => ({
  ...name,
  points: parts.flatMap(({ from, to }) =>
    countUp(steps - 1).map((i) => onCircle(radius, from + ((to - from) / steps) * i, z)),
  ),
});

/** An arch in plan x = constant: y = radius sin(angle), z = centre + radius cos(angle); radians from the crown. */
export interface Arch {
  readonly radius: number;
  readonly centre: number;
  /** Sampled angles from the south up over the crown to the north. */
  readonly angles: readonly number[];
}

export const archPoint = ({ radius, centre }: Arch, x: number, angle: number): Vec3 => [
  x,
  radius * Math.sin(angle),
  centre + radius * Math.cos(angle),
];

/** A vault over an arch, from x = -half to x = half; laid flat it is a rectangle as wide as the arch is long. */
export function vaultFace(name: FaceName, arch: Arch, half: number): FaceDraft {
  const { radius, angles } = arch;
  const n = angles.length - 1;
  const loop = [
    { x: -half, i: 0 },
    ...countUp(n).map((i) => ({ x: half, i })),
    ...countUp(n - 1).map((i) => ({ x: -half, i: n - i })),
  ];
  const step = Math.max(...angles.slice(1).map((angle, i) => angle - (angles[i] as number)));
  return {
    ...name,
    points: loop.map(({ x, i }) => archPoint(arch, x, angles[i] as number)),
    roll: {
      surface: { form: 'cylinder', radius, rulings: 'x' },
      flat: loop.map(({ x, i }) => [x, radius * (angles[i] as number)]),
      rulings: countUp(n).map((i) => [i === 0 ? 0 : 2 * n + 2 - i, i + 1]),
      corners: [0, 1, n + 1, n + 2],
      deviation: deviationOf(radius, step),
    },
  };
}
