import { describe, expect, test } from 'vitest';
import { at, ringArea } from '../../src/core/geometry/polygon.ts';
import { distance2, distance3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import { buildSolid, type FaceDraft } from '../../src/core/solid/build-solid.ts';
import { checkSolid } from '../../src/core/solid/check-solid.ts';
import type { Solid } from '../../src/core/solid/solid.ts';

/**
 * Transition pieces: flat triangles between a square below and a ring of points above, laid flat by true lengths (plan length
 * against height: Longfield, Sheet Metal Drafting, 1921; Kidder, Triangulation Applied to Sheet Metal Pattern Cutting, 1920;
 * Coey, Pattern Development: Sheet Metal Level 1, BCcampus, 2021). Those texts draw them; none prints a length, so the lengths
 * here are the rule's own.
 */
function transition(side: number, ring: readonly Vec2[], rise: number): Solid {
  const half = side / 2;
  const corners: Vec3[] = [
    [half, -half, 0],
    [half, half, 0],
    [-half, half, 0],
    [-half, -half, 0],
  ];
  const quarter = ring.length / 4;
  const above = (i: number): Vec3 => [...at(ring, i), rise] as unknown as Vec3;
  const draft = (name: string, points: readonly Vec3[]): FaceDraft => ({
    id: name,
    title: name,
    part: 'slope',
    side: name,
    points,
  });
  return buildSolid(
    corners.flatMap((corner, c): FaceDraft[] => [
      draft(`side-${c}`, [corner, at(corners, c + 1), above(quarter * c)]),
      ...Array.from({ length: quarter }, (_, i) =>
        draft(`corner-${c}-${i}`, [at(corners, c + 1), above(quarter * c + i + 1), above(quarter * c + i)]),
      ),
    ]),
  );
}

/** Points at so many degrees from the east, on a circle. */
const circle = (radius: number, count: number): Vec2[] =>
  Array.from({ length: count }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** Every panel of the net has the true lengths of its edges; returns the lengths of the lines up. */
function laidFlat(solid: Solid): string[] {
  expect(checkSolid(solid)).toEqual([]);
  const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;
  const built = buildNet(solid, { pieces: 'one-piece', flaps });
  expect(checkNet(solid, built.net, flaps)).toEqual([]);
  const found: string[] = [];
  let area = 0;
  for (const { face, polygon } of built.net.pieces.flatMap(({ panels }) => panels)) {
    area += ringArea(polygon);
    const loop = solid.faces[face]?.loop ?? [];
    loop.forEach((v, i) => {
      const [a, b] = [solid.vertices[v] as Vec3, solid.vertices[at(loop, i + 1)] as Vec3];
      const flat = distance2(at(polygon, i), at(polygon, i + 1));
      expect(flat).toBeCloseTo(distance3(a, b), 8);
      if (a[2] !== b[2]) found.push(flat.toFixed(5));
    });
  }
  expect(area).toBeGreaterThan(0);
  return [...new Set(found)].sort();
}

describe('transition pieces', () => {
  test('square to round, 400 mm to 300 mm, 500 mm high, twelve points', () => {
    expect(laidFlat(transition(400, circle(150, 12), 500))).toEqual(['520.13313', '540.83269']);
  });

  test('square to octagon: side triangles as high as their slant, corners by plan length against height', () => {
    const [side, across, rise] = [120, 80, 55];
    // An octagon with a corner to each side of the square.
    const lengths = laidFlat(transition(side, circle(across / 2, 8), rise));
    const [toSide, toDiagonal] = [
      Math.hypot(side / 2, (side - across) / 2, rise),
      Math.hypot(side / Math.SQRT2 - across / 2, rise),
    ];
    expect(lengths).toEqual([toDiagonal, toSide].map((length) => length.toFixed(5)).sort());
  });
});
