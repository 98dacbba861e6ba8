import type { Vec3 } from '../../core/geometry/vector.ts';
import { corners, type Desk, type Picture } from './desk.ts';
import { type Aim, aimAtFold, bodyAim, buildAim, ease, fitShot, type Margins, planAim, type Shot } from './shot.ts';

/** Edges of the picture, in picture points, that other things cover. */
export interface Clear {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface SceneFrame {
  readonly now: number;
  readonly view: 'body' | 'roof' | 'paper' | 'set-out' | 'build';
  readonly desk: Desk;
  /** Corners of what stands still: the body. */
  readonly still: readonly Vec3[];
  /** Corners of what is folding, as it is now. */
  readonly folding: readonly Vec3[];
  /** Height of the finished roof's top over the table, mm. */
  readonly crown: number;
  readonly size: Picture;
  readonly clear: Clear;
  readonly reducedMotion: boolean;
}

const marginsOf = (size: Picture, clear: Clear, air: number): Margins => {
  const room = air * Math.min(size.width - clear.left - clear.right, size.height - clear.top - clear.bottom);
  return {
    left: (clear.left + room) / size.width,
    right: (clear.right + room) / size.width,
    top: (clear.top + room) / size.height,
    bottom: (clear.bottom + room) / size.height,
  };
};

const mix = (a: number, b: number, s: number): number => a + (b - a) * s;

/** The desk's rectangle, drawn in to the foot of the building as the net is lifted from it. */
const shrinkFrame = (desk: Desk, still: readonly Vec3[], s: number): readonly Vec3[] => {
  const foot = still.length === 0 ? 30 : Math.max(...still.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y))));
  const { minX, minY, maxX, maxY } = desk.frame;
  return corners({
    minX: mix(minX, -foot * 1.05, s),
    maxX: mix(maxX, foot * 1.05, s),
    minY: mix(minY, -foot * 1.5, s),
    maxY: mix(maxY, foot * 1.05, s),
  });
};

/** Chooses the shot: what has to be seen, from where, with how much air round it. */
export const frameScene = (scene: SceneFrame): Shot => {
  const { now, view, desk, still, folding, crown, size, clear, reducedMotion } = scene;
  const aspect = size.width / Math.max(1, size.height);
  const shoot = (points: readonly Vec3[], aim: Aim, air: number): Shot =>
    fitShot(points, aim, aspect, marginsOf(size, clear, air));
  if (view === 'paper' || view === 'set-out') return shoot(corners(desk.frame), planAim, 0.03);
  if (view === 'body') {
    const round = still.map(([x, y, z]): Vec3 => [x * 1.3, y * 1.3, z]);
    return shoot([...round, ...folding], bodyAim, 0.1);
  }
  if (view === 'build') return shoot([...still, ...folding], buildAim, 0.13);
  // Less motion: no swing, one cut from the drawing to the walk-round view.
  const swing = reducedMotion ? (now < 0.1 ? 0 : 1) : now;
  const s = ease(0.08, 0.7, swing);
  // Pieces on their way may leave the top of the picture a little: following them all the way would shrink the rest.
  const followed = folding.map(([x, y, z]): Vec3 => [x, y, z > crown ? crown + (z - crown) * 0.55 : z]);
  const points = [...shrinkFrame(desk, still, s), ...still, ...followed];
  return shoot(points, aimAtFold(swing), mix(0.025, 0.1, s));
};
