import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arbitraryRoof, kinds } from '../../../tests/laws/arbitrary-roof.ts';
import { runs } from '../../../tests/laws/runs.ts';
import { distance2, distance3, lerp2, lerp3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { kinds as catalogue } from '../roofs/catalogue.ts';
import { type SeenLine, type Stretch, seeLines } from './hidden-lines.ts';
import { isometric, type Sight, sightAt, sightFrom } from './sight.ts';
import { bodyScene, joinScenes, solidScene } from './solid-scene.ts';
import { firstHit, type Triangle, trianglesOf } from './testing/ray.ts';

const box = (corner: Vec3, size: Vec3): ReturnType<typeof bodyScene> => {
  const [x, y, z] = corner;
  const [w, d, h] = size;
  const outline: Vec2[] = [
    [x, y],
    [x + w, y],
    [x + w, y + d],
    [x, y + d],
  ];
  return bodyScene({ outline, height: h, rectangle: null }, z, z + h);
};

const lengthOf = (stretches: readonly Stretch[]): number => stretches.reduce((sum, [a, b]) => sum + distance2(a, b), 0);
const seenLength = (lines: readonly SeenLine[]): number =>
  lines.reduce((sum, { visible }) => sum + lengthOf(visible), 0);

/** A direction to the eye from anywhere above or below. */
const eyes = fc
  .tuple(fc.double({ min: 0, max: 6.28, noNaN: true }), fc.double({ min: -1.5, max: 1.5, noNaN: true }))
  .map(([turn, up]): Vec3 => [Math.cos(turn) * Math.cos(up), Math.sin(turn) * Math.cos(up), Math.sin(up)]);

describe('by hand', () => {
  // Isometric, every edge of a cube is seen at the square root of 2/3 of its length (ISO 5456-3).
  const edge = 10 * Math.sqrt(2 / 3);

  test('a cube shows nine edges, and hides the three that meet at the far corner', () => {
    const seen = seeLines(box([0, 0, 0], [10, 10, 10]), isometric);
    expect(seenLength(seen)).toBeCloseTo(9 * edge, 9);
    expect(seen.filter(({ visible }) => visible.length === 0)).toHaveLength(3);
  });

  test('a cube before another hides what its outline covers, to the exact point', () => {
    // Seen from the front: a wall 10 wide before a rod that reaches from 5 left of it to 5 right of it.
    const wall = box([0, 0, 0], [10, 1, 10]);
    const rod = {
      ends: [
        [-5, 20, 4],
        [15, 20, 4],
      ] as const,
    };
    const seen = seeLines({ faces: wall.faces, lines: [rod] }, sightFrom([0, -1, 0]));
    expect(seen).toEqual([
      {
        line: 0,
        visible: [
          [
            [-5, 4],
            [0, 4],
          ],
          [
            [10, 4],
            [15, 4],
          ],
        ],
        hidden: [
          [
            [0, 4],
            [10, 4],
          ],
        ],
      },
    ]);
  });

  test('a rod through a board is seen up to where it goes in', () => {
    const board = {
      rings: [
        [
          [0, 0, 0],
          [10, 0, 0],
          [10, 10, 0],
          [0, 10, 0],
        ] as Vec3[],
      ],
    };
    const rod = {
      ends: [
        [3, 5, 4],
        [7, 5, -4],
      ] as const,
    };
    const [seen] = seeLines({ faces: [board], lines: [rod] }, sightFrom([0, 0, 1]));
    expect(seen?.visible).toEqual([
      [
        [3, 5],
        [5, 5],
      ],
    ]);
    expect(seen?.hidden).toEqual([
      [
        [5, 5],
        [7, 5],
      ],
    ]);
  });

  test('through a court one sees what lies behind; beside it not', () => {
    const ring = (a: number, b: number): Vec3[] => [
      [a, a, 5],
      [b, a, 5],
      [b, b, 5],
      [a, b, 5],
    ];
    const rod = {
      ends: [
        [-1, 5, 0],
        [11, 5, 0],
      ] as const,
    };
    const [seen] = seeLines({ faces: [{ rings: [ring(0, 10), ring(3, 7)] }], lines: [rod] }, sightFrom([0, 0, 1]));
    expect(seen?.visible.map((part) => part.map(([x]) => x))).toEqual([
      [-1, 0],
      [3, 7],
      [10, 11],
    ]);
  });

  test('a pyramid from the front right and above shows its two near eaves and the three hips between', () => {
    const definition = catalogue.find(({ id }) => id === 'pyramid');
    const built = definition?.build({ width: 40, depth: 40, rise: 60 }, null);
    if (!built?.ok) throw new Error('no pyramid');
    const seen = seeLines(solidScene(built.value), isometric);
    expect(seen.filter(({ visible }) => visible.length > 0)).toHaveLength(5);
    expect(seen.filter(({ hidden }) => hidden.length > 0)).toHaveLength(3);
  });

  test('near to, a cube a little beside the eye’s way shows one side more than straight before it', () => {
    const scene = box([-5, -5, -5], [10, 10, 10]);
    const shown = (eye: Vec3): number =>
      seeLines(scene, sightAt(eye, [0, 0, 0])).filter(({ visible }) => visible.length > 0).length;
    expect(shown([4, -20, 1])).toBe(4);
    expect(shown([8, -20, 1])).toBe(7);
    // From infinitely far the same direction shows the side and the top at once.
    expect(seeLines(scene, sightFrom([4, -20, 1])).filter(({ visible }) => visible.length > 0)).toHaveLength(9);
  });
});

/** Points of stretches looked at; away from their ends by so much, since there something begins or ends. */
const SHARES = [0.21, 0.8];
const MARGIN = 0.05;

/** Checks every stretch by rays from the line to the eye: no face in their way, or some. */
function proveBySampling(
  scene: ReturnType<typeof solidScene>,
  sight: Sight,
  toEye: (p: Vec3) => { readonly direction: Vec3; readonly far: number },
): void {
  const triangles: readonly Triangle[] = trianglesOf(scene.faces);
  const wrong: unknown[] = [];
  for (const { line, visible, hidden } of seeLines(scene, sight)) {
    const [a, b] = (scene.lines[line] as (typeof scene.lines)[number]).ends;
    const [from, to] = [a, b].map(sight) as [Vec3, Vec3];
    const whole = distance2([from[0], from[1]], [to[0], to[1]]);
    if (Math.abs(lengthOf(visible) + lengthOf(hidden) - whole) > 1e-6) wrong.push({ line, visible, hidden, whole });
    for (const [stretches, isSeen] of [
      [visible, true],
      [hidden, false],
    ] as const)
      for (const [p, q] of stretches) {
        if (distance2(p, q) < 4 * MARGIN) continue;
        for (const share of SHARES) {
          const point = pointSeenAt(a, b, sight, lerp2(p, q, share));
          const { direction, far } = toEye(point);
          const hit = firstHit(triangles, point, direction, far);
          if (isSeen ? hit.clear : !hit.any) wrong.push({ line, isSeen, point });
        }
      }
  }
  expect(wrong).toEqual([]);
}

/** The point of a line in space that is seen at a point of the picture, by halving: it knows nothing of how sights are made. */
function pointSeenAt(a: Vec3, b: Vec3, sight: Sight, seen: Vec2): Vec3 {
  const start = sight(a);
  const along = (s: number): number => {
    const [x, y] = sight(lerp3(a, b, s));
    return distance2([x, y], [start[0], start[1]]);
  };
  const goal = distance2(seen, [start[0], start[1]]);
  let [low, high] = [0, 1];
  for (let i = 0; i < 45; i++) {
    const middle = (low + high) / 2;
    if (along(middle) < goal) low = middle;
    else high = middle;
  }
  return lerp3(a, b, (low + high) / 2);
}

test('roofs of any kind on their bodies are seen as rays say, from far and from near', () => {
  const anyRoof = fc.constantFrom(...kinds).chain((kind) => arbitraryRoof(kind));
  fc.assert(
    fc.property(anyRoof, eyes, fc.boolean(), ({ solid, body }, direction, isNear) => {
      const top = Math.max(...solid.vertices.map((v) => v[2]));
      const scene = joinScenes([solidScene(solid), ...(body ? [bodyScene(body, -60, -0.5)] : [])]);
      if (scene.faces.length > 150) return;
      if (!isNear) {
        proveBySampling(scene, sightFrom(direction), () => ({ direction, far: Number.POSITIVE_INFINITY }));
        return;
      }
      const away = 3 * Math.max(top, 60, ...solid.vertices.map((v) => Math.hypot(...v)));
      const eye: Vec3 = [direction[0] * away, direction[1] * away, direction[2] * away];
      proveBySampling(scene, sightAt(eye, [0, 0, 0]), (p) => {
        const far = distance3(p, eye);
        return { direction: [(eye[0] - p[0]) / far, (eye[1] - p[1]) / far, (eye[2] - p[2]) / far], far };
      });
    }),
    { numRuns: runs(20) },
  );
});

test('boxes anywhere, through each other too, are seen as rays say', () => {
  const place = fc.double({ min: -20, max: 20, noNaN: true });
  const size = fc.double({ min: 2, max: 30, noNaN: true });
  const boxes = fc.array(fc.tuple(fc.tuple(place, place, place), fc.tuple(size, size, size)), {
    minLength: 2,
    maxLength: 5,
  });
  fc.assert(
    fc.property(boxes, eyes, (drawn, direction) => {
      const scene = joinScenes(drawn.map(([corner, sides]) => box(corner, sides)));
      proveBySampling(scene, sightFrom(direction), () => ({ direction, far: Number.POSITIVE_INFINITY }));
    }),
    { numRuns: runs(25) },
  );
});
