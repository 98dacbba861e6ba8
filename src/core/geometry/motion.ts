import { add3, cross3, dot3, scale3, sub3, unit3, type Vec3 } from './vector.ts';

/** A rigid motion: rows of a rotation matrix and a translation; p becomes R p + move. */
export interface Motion {
  readonly rotation: readonly [Vec3, Vec3, Vec3];
  readonly move: Vec3;
}

/** Unit quaternion: a turn, for going from one to another the short way. */
export type Quaternion = readonly [w: number, x: number, y: number, z: number];

export const rest: Motion = {
  rotation: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  move: [0, 0, 0],
};

const turn3 = ({ rotation }: Motion, p: Vec3): Vec3 => [
  dot3(rotation[0], p),
  dot3(rotation[1], p),
  dot3(rotation[2], p),
];

export const move3 = ({ rotation, move }: Motion, p: Vec3): Vec3 => [
  dot3(rotation[0], p) + move[0],
  dot3(rotation[1], p) + move[1],
  dot3(rotation[2], p) + move[2],
];

/** First `inner`, then `outer`. */
export function compose(outer: Motion, inner: Motion): Motion {
  const [a, b, c] = inner.rotation;
  const row = (r: Vec3): Vec3 => [
    r[0] * a[0] + r[1] * b[0] + r[2] * c[0],
    r[0] * a[1] + r[1] * b[1] + r[2] * c[1],
    r[0] * a[2] + r[1] * b[2] + r[2] * c[2],
  ];
  const [p, q, s] = outer.rotation;
  return { rotation: [row(p), row(q), row(s)], move: move3(outer, inner.move) };
}

/** Undoes a motion. */
export function inverseMotion({ rotation: [a, b, c], move }: Motion): Motion {
  const turned: Motion = {
    rotation: [
      [a[0], b[0], c[0]],
      [a[1], b[1], c[1]],
      [a[2], b[2], c[2]],
    ],
    move: [0, 0, 0],
  };
  return { ...turned, move: scale3(turn3(turned, move), -1) };
}

export const shifted = (motion: Motion, by: Vec3): Motion => ({ ...motion, move: add3(motion.move, by) });

/** Turn about the line from a to b, right-handed, radians (Rodrigues' rotation formula). */
export function turnAbout(a: Vec3, b: Vec3, angle: number): Motion {
  const [x, y, z] = unit3(sub3(b, a));
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const k = 1 - c;
  const turned: Motion = {
    rotation: [
      [c + x * x * k, x * y * k - z * s, x * z * k + y * s],
      [y * x * k + z * s, c + y * y * k, y * z * k - x * s],
      [z * x * k - y * s, z * y * k + x * s, c + z * z * k],
    ],
    move: [0, 0, 0],
  };
  return shifted(turned, sub3(a, turn3(turned, a)));
}

/** The motion that takes the axes x, y (at right angles, unit length) of the plane z = 0 at `from` to those at `to`. */
export function alignFrames(
  from: { readonly origin: Vec3; readonly x: Vec3; readonly y: Vec3 },
  to: { readonly origin: Vec3; readonly x: Vec3; readonly y: Vec3 },
): Motion {
  const a = [from.x, from.y, cross3(from.x, from.y)] as const;
  const b = [to.x, to.y, cross3(to.x, to.y)] as const;
  const row = (i: 0 | 1 | 2): Vec3 =>
    ([0, 1, 2] as const).map((j) => b[0][i] * a[0][j] + b[1][i] * a[1][j] + b[2][i] * a[2][j]) as unknown as Vec3;
  const turned: Motion = { rotation: [row(0), row(1), row(2)], move: [0, 0, 0] };
  return shifted(turned, sub3(to.origin, turn3(turned, from.origin)));
}

/** Quaternion of a rotation, by the largest of its four parts, which keeps the division safe. */
export function quaternionOf({ rotation: [a, b, c] }: Motion): Quaternion {
  const squares = [
    1 + a[0] + b[1] + c[2],
    1 + a[0] - b[1] - c[2],
    1 - a[0] + b[1] - c[2],
    1 - a[0] - b[1] + c[2],
  ] as const;
  const largest = squares.indexOf(Math.max(...squares));
  const half = Math.sqrt(Math.max(...squares)) / 2;
  const k = 1 / (4 * half);
  if (largest === 0) return [half, (c[1] - b[2]) * k, (a[2] - c[0]) * k, (b[0] - a[1]) * k];
  if (largest === 1) return [(c[1] - b[2]) * k, half, (a[1] + b[0]) * k, (a[2] + c[0]) * k];
  if (largest === 2) return [(a[2] - c[0]) * k, (a[1] + b[0]) * k, half, (b[2] + c[1]) * k];
  return [(b[0] - a[1]) * k, (a[2] + c[0]) * k, (b[2] + c[1]) * k, half];
}

/** The part s (0 to 1) of the turn from rest to q, the short way. */
export function partialTurn(q: Quaternion, s: number): Motion {
  const [w, x, y, z] = q[0] < 0 ? (q.map((part) => -part) as unknown as Quaternion) : q;
  const size = Math.hypot(x, y, z);
  if (size === 0) return rest;
  return turnAbout([0, 0, 0], scale3([x, y, z], 1 / size), 2 * Math.atan2(size, w) * s);
}
