import type { Vec3 } from '../../core/geometry/vector.ts';

/** The moment of the fold that is on show, told to everything that moves with it without a React render. */
export interface FoldClock {
  readonly now: () => number;
  readonly show: (t: number) => void;
  /** Called at once and at every change; returns how to stop. */
  readonly listen: (hear: (t: number) => void) => () => void;
  /** Corner points of what is folding now, for the camera. */
  readonly points: () => readonly Vec3[];
  /** What one who folds adds to them; returns how to take it away. */
  readonly follow: (points: () => readonly Vec3[]) => () => void;
}

export const startFoldClock = (start: number): FoldClock => {
  const hearers = new Set<(t: number) => void>();
  const followed = new Set<() => readonly Vec3[]>();
  let t = start;
  return {
    now: () => t,
    show: (next) => {
      if (next === t) return;
      t = next;
      for (const hear of hearers) hear(t);
    },
    listen: (hear) => {
      hearers.add(hear);
      hear(t);
      return () => hearers.delete(hear);
    },
    points: () => [...followed].flatMap((points) => points()),
    follow: (points) => {
      followed.add(points);
      return () => followed.delete(points);
    },
  };
};
