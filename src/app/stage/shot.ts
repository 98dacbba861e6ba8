import type { Vec3 } from '../../core/geometry/vector.ts';
import { add3, cross3, dot3, scale3 } from '../../core/geometry/vector.ts';

/**
 * Where the camera stands, as an orbit round a target. Frame: the table, z up, mm; radians.
 * Azimuth 0 looks north, growing as the camera walks east; polar 0 looks straight down; `fov` is the vertical angle.
 */
export interface Shot {
  readonly target: Vec3;
  readonly azimuth: number;
  readonly polar: number;
  readonly distance: number;
  readonly fov: number;
}

export type Aim = Pick<Shot, 'azimuth' | 'polar' | 'fov'>;

/** Share of the picture's width or height that stays free at each side. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Basis {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly forward: Vec3;
}

/** Right-handed view axes of an aim; north is up when looking straight down. */
export const viewBasis = ({ azimuth, polar }: Pick<Shot, 'azimuth' | 'polar'>): Basis => {
  const forward: Vec3 = [-Math.sin(polar) * Math.sin(azimuth), Math.sin(polar) * Math.cos(azimuth), -Math.cos(polar)];
  const right: Vec3 = [Math.cos(azimuth), Math.sin(azimuth), 0];
  return { right, up: cross3(right, forward), forward };
};

export const shotPosition = (shot: Shot): Vec3 => add3(shot.target, scale3(viewBasis(shot).forward, -shot.distance));

/** Least camera depth coordinate along one picture axis, and where on that axis the camera then stands. */
const fitAxis = (
  points: readonly { readonly across: number; readonly depth: number }[],
  high: number,
  low: number,
): { readonly depth: number; readonly across: (depth: number) => number } => {
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.NEGATIVE_INFINITY;
  for (const { across, depth } of points) {
    highest = Math.max(highest, across - depth * high);
    lowest = Math.max(lowest, -across - depth * low);
  }
  return {
    depth: -(highest + lowest) / (high + low),
    // Slack on this axis is shared evenly between both sides.
    across: (depth) => (highest + depth * high - (lowest + depth * low)) / 2,
  };
};

/** The camera keeps this far before the nearest point, mm. */
export const NEAREST = 1;

/**
 * The nearest shot with this aim that holds every point within the margins. Exact for a perspective camera: each side
 * of the frustum is pushed to its outermost point. No points: a shot of the origin.
 */
export const fitShot = (points: readonly Vec3[], aim: Aim, aspect: number, margins: Margins): Shot => {
  const { right, up, forward } = viewBasis(aim);
  const half = Math.tan(aim.fov / 2);
  if (points.length === 0) return { ...aim, target: [0, 0, 0], distance: 100 / half };
  const seen = points.map((p) => ({ x: dot3(p, right), y: dot3(p, up), depth: dot3(p, forward) }));
  const sideways = fitAxis(
    seen.map(({ x, depth }) => ({ across: x, depth })),
    half * aspect * (1 - 2 * margins.right),
    half * aspect * (1 - 2 * margins.left),
  );
  const upright = fitAxis(
    seen.map(({ y, depth }) => ({ across: y, depth })),
    half * (1 - 2 * margins.top),
    half * (1 - 2 * margins.bottom),
  );
  const near = Math.min(...seen.map((p) => p.depth));
  const depth = Math.min(sideways.depth, upright.depth, near - NEAREST);
  const far = Math.max(...seen.map((p) => p.depth));
  // A single point fits from anywhere: stand back a little all the same.
  const distance = Math.max((near + far) / 2 - depth, 1);
  const position = add3(
    add3(scale3(right, sideways.across(depth)), scale3(up, upright.across(depth))),
    scale3(forward, (near + far) / 2 - distance),
  );
  return { ...aim, distance, target: add3(position, scale3(forward, distance)) };
};

const mix = (a: number, b: number, s: number): number => a + (b - a) * s;

/** Between two shots, s from 0 to 1. What is seen keeps its size while the lens changes (the distance follows). */
export const mixShots = (a: Shot, b: Shot, s: number): Shot => {
  const turn = ((((b.azimuth - a.azimuth + Math.PI) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI)) - Math.PI;
  const fov = mix(a.fov, b.fov, s);
  const reach = mix(a.distance * Math.tan(a.fov / 2), b.distance * Math.tan(b.fov / 2), s);
  return {
    target: [mix(a.target[0], b.target[0], s), mix(a.target[1], b.target[1], s), mix(a.target[2], b.target[2], s)],
    azimuth: a.azimuth + turn * s,
    polar: mix(a.polar, b.polar, s),
    fov,
    distance: reach / Math.tan(fov / 2),
  };
};

/** 0 below `from`, 1 above `to`, smooth between. */
export const ease = (from: number, to: number, value: number): number => {
  const s = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return s * s * (3 - 2 * s);
};

const plan: Aim = { azimuth: 0, polar: 0.0004, fov: (8 * Math.PI) / 180 };
const stroll: Aim = { azimuth: 0.52, polar: 1.13, fov: (30 * Math.PI) / 180 };

/** From the drawing-like plan to the walk-round view while the net is lifted. */
export const aimAtFold = (t: number): Aim => {
  const s = ease(0.04, 0.58, t);
  return {
    azimuth: mix(plan.azimuth, stroll.azimuth, s),
    polar: mix(plan.polar, stroll.polar, s),
    fov: mix(plan.fov, stroll.fov, s),
  };
};

export const planAim: Aim = plan;
export const bodyAim: Aim = { azimuth: 0.56, polar: 1.16, fov: stroll.fov };
export const buildAim: Aim = { azimuth: 0.62, polar: 1.24, fov: (27 * Math.PI) / 180 };
