import fc from 'fast-check';
import { at, isInside, ringArea } from '../../src/core/geometry/polygon.ts';
import { cross2, sub2, type Vec2 } from '../../src/core/geometry/vector.ts';

/** Outlines for slopes: the outline counter-clockwise, then courts clockwise. Built from one number, so that a seed tells all. */
export type Rings = readonly (readonly Vec2[])[];

/** A generator of numbers in [0, 1) from a seed (mulberry32, public domain). */
export function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

const crosses = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean => {
  const side = (p: Vec2, q: Vec2, r: Vec2): number => cross2(sub2(q, p), sub2(r, p));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

/** Any simple polygon: random points joined in a round trip, two crossing sides uncrossed until none is left. */
export function anySimple(count: number, next: () => number): Vec2[] {
  const ring = Array.from({ length: count }, (): Vec2 => [next() * 1000, next() * 1000]);
  // Every exchange shortens the trip, so there is an end to it.
  for (let isCrossing = true; isCrossing; ) {
    isCrossing = false;
    for (let i = 0; i < count; i++) {
      for (let j = i + 2; j < count; j++) {
        if (i === 0 && j === count - 1) continue;
        if (!crosses(at(ring, i), at(ring, i + 1), at(ring, j), at(ring, j + 1))) continue;
        ring.splice(i + 1, j - i, ...ring.slice(i + 1, j + 1).reverse());
        isCrossing = true;
      }
    }
  }
  return ringArea(ring) < 0 ? ring.reverse() : ring;
}

/** Up to three regular courts inside an outline, clear of it and of each other. */
export function withCourts(outer: readonly Vec2[], next: () => number): Rings {
  const courts: Vec2[][] = [];
  for (let attempt = 0; attempt < 60 && courts.length < 3; attempt++) {
    const [x, y, radius, corners, turn] = [
      next() * 1000,
      next() * 1000,
      10 + 60 * next(),
      3 + Math.floor(next() * 4),
      next() * 6,
    ];
    const court = Array.from({ length: corners }, (_, i): Vec2 => {
      const angle = turn - (2 * Math.PI * i) / corners;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    });
    const rings = [outer, ...courts];
    const meets = rings.some((ring) =>
      ring.some((p, i) => court.some((q, j) => crosses(p, at(ring, i + 1), q, at(court, j + 1)))),
    );
    const isApart = courts.every((other) => !isInside(court[0] as Vec2, other) && !isInside(other[0] as Vec2, court));
    const isIn = court.every((p) => isInside(p, outer)) && !outer.some((p) => isInside(p, court));
    if (isIn && isApart && !meets) courts.push(court);
  }
  return [outer, ...courts];
}

/** The outline of cells grown at random on a grid: many sides of one length, in four directions, that meet all at once. */
export function anyRectilinear(cells: number, next: () => number): Vec2[] {
  for (;;) {
    const taken = new Set(['3,3']);
    while (taken.size < cells) {
      const [x = 0, y = 0] = [...taken][Math.floor(next() * taken.size)]?.split(',').map(Number) ?? [];
      const [dx, dy] = [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ][Math.floor(next() * 4)] as [number, number];
      if (x + dx >= 0 && y + dy >= 0 && x + dx < 7 && y + dy < 7) taken.add(`${x + dx},${y + dy}`);
    }
    const ring = borderOf(taken);
    if (ring) return ring;
  }
}

/** The one border of a set of cells, a hundred to a side, straight runs joined; null where there are several or one touches itself. */
function borderOf(cells: ReadonlySet<string>): Vec2[] | null {
  const next = new Map<string, string>();
  for (const cell of cells) {
    const [x = 0, y = 0] = cell.split(',').map(Number);
    const corners = [
      [x, y],
      [x + 1, y],
      [x + 1, y + 1],
      [x, y + 1],
    ] as const;
    const beyond = [
      [x, y - 1],
      [x + 1, y],
      [x, y + 1],
      [x - 1, y],
    ] as const;
    for (const [i, other] of beyond.entries()) {
      if (cells.has(other.join(','))) continue;
      const from = at(corners, i).join(',');
      if (next.has(from)) return null;
      next.set(from, at(corners, i + 1).join(','));
    }
  }
  const ring: Vec2[] = [];
  const [start] = next.keys();
  for (let key = start; key !== undefined && (ring.length === 0 || key !== start); key = next.get(key)) {
    const [x = 0, y = 0] = key.split(',').map(Number);
    ring.push([100 * x, 100 * y]);
  }
  if (ring.length !== next.size) return null;
  return ring.filter((p, i) => cross2(sub2(p, at(ring, i - 1)), sub2(at(ring, i + 1), p)) !== 0);
}

export const turned = (rings: Rings, angle: number, scale: number): Rings =>
  rings.map((ring) =>
    ring.map(
      ([x, y]): Vec2 => [
        scale * (x * Math.cos(angle) - y * Math.sin(angle)),
        scale * (x * Math.sin(angle) + y * Math.cos(angle)),
      ],
    ),
  );

/** A seed for the builders above. */
export const arbitrarySeed: fc.Arbitrary<number> = fc.noShrink(fc.integer({ min: 0, max: 2 ** 31 - 1 }));
