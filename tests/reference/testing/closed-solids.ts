import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import { buildSolid } from '../../../src/core/solid/build-solid.ts';
import type { Solid } from '../../../src/core/solid/solid.ts';

/** A closed solid of flat faces, each by its corners counter-clockwise seen from outside. */
const closed = (faces: readonly (readonly Vec3[])[]): Solid =>
  buildSolid(
    faces.map((points, f) => ({ id: `face-${f}`, title: `Face ${f}`, part: 'slope', side: `side-${f}`, points })),
  );

const ring = (corners: number, radius: number, level: number, turn = 0): Vec3[] =>
  Array.from({ length: corners }, (_, i): Vec3 => {
    const angle = turn + (2 * Math.PI * i) / corners;
    return [radius * Math.cos(angle), radius * Math.sin(angle), level];
  });

/** On a regular base; the rise over a base of radius 1. */
export function pyramidOf(sides: number, rise: number): Solid {
  const base = ring(sides, 1, 0);
  const slopes = base.map((p, i): Vec3[] => [p, base[(i + 1) % sides] as Vec3, [0, 0, rise]]);
  return closed([base.toReversed(), ...slopes]);
}

/** Between two like polygons one over the other; a prism where they are of one size. */
export function frustumOf(sides: number, top: number, rise: number): Solid {
  const [low, high] = [ring(sides, 1, 0), ring(sides, top, rise)];
  const around = low.map((p, i): Vec3[] => {
    const j = (i + 1) % sides;
    return [p, low[j] as Vec3, high[j] as Vec3, high[i] as Vec3];
  });
  return closed([low.toReversed(), high, ...around]);
}

/** A hip roof of equal pitches over a rectangle, with its base. */
export function hipWithBase(length: number, width: number, rise: number): Solid {
  const [x, y, r] = [length / 2, width / 2, (length - width) / 2];
  const [a, b, c, d]: Vec3[] = [
    [-x, -y, 0],
    [x, -y, 0],
    [x, y, 0],
    [-x, y, 0],
  ];
  const [west, east]: Vec3[] = [
    [-r, 0, rise],
    [r, 0, rise],
  ];
  const at = (...points: (Vec3 | undefined)[]): Vec3[] => points as Vec3[];
  return closed([at(d, c, b, a), at(a, b, east, west), at(b, c, east), at(c, d, west, east), at(d, a, west)]);
}

export const tetrahedron = (): Solid => pyramidOf(3, Math.SQRT2);

export const cube = (): Solid => frustumOf(4, 1, Math.SQRT2);

export function octahedron(): Solid {
  const belt = ring(4, 1, 0);
  const caps = ([1, -1] as const).flatMap((level) =>
    belt.map((p, i): Vec3[] => {
      const q = belt[(i + 1) % 4] as Vec3;
      return level > 0 ? [p, q, [0, 0, 1]] : [q, p, [0, 0, -1]];
    }),
  );
  return closed(caps);
}

/** Edges all of one length: the rise of a pyramid over a base of radius 1. */
export const equalEdges = (sides: number): number => Math.sqrt((2 * Math.sin(Math.PI / sides)) ** 2 - 1);
