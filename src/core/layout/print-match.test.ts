import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import type { Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { makeRoof } from '../make-roof.ts';
import { resolveProject } from '../project/read-project.ts';
import { type LaidLayer, matchPrint, matchSeams, type PrintRepeat } from './print-match.ts';

const checks: PrintRepeat = { x: { period: 10, isEven: true }, y: { period: 10, isEven: true }, isSquare: true };
const stripes: PrintRepeat = { x: { period: 10, isEven: true }, y: null, isSquare: false };
const slates: PrintRepeat = { x: null, y: { period: 6, isEven: false }, isSquare: false };

const at = (x: number, y: number, quarters = 0): Rigid2 => ({
  cos: [1, 0, -1, 0][quarters] as number,
  sin: [0, 1, 0, -1][quarters] as number,
  move: [x, y],
});

/** Two slopes 30 wide and 20 up, their upper edges a ridge: from the west end it runs right on the one and left on the other. */
const southRidge: readonly Vec2[] = [
  [0, 20],
  [30, 20],
];
const northRidge: readonly Vec2[] = [
  [30, 20],
  [0, 20],
];
const ridge = (south: Rigid2, north: Rigid2, print: PrintRepeat) =>
  matchPrint(
    [
      { path: southRidge, motion: south },
      { path: northRidge, motion: north },
    ],
    print,
  );

/** A hip of a square pyramid, base 30, slant 20: it is the right edge of the south panel and the left one of the east panel. */
const hip = (south: Rigid2, east: Rigid2, print: PrintRepeat) =>
  matchPrint(
    [
      {
        path: [
          [30, 0],
          [15, 20],
        ],
        motion: south,
      },
      {
        path: [
          [0, 0],
          [15, 20],
        ],
        motion: east,
      },
    ],
    print,
  );

describe('by hand arithmetic', () => {
  test('checks of 10 run on over a ridge that lies two checks up both slopes', () => {
    expect(ridge(at(0, 0), at(0, 0), checks)).toEqual({ run: 'runs-on', off: 0 });
    expect(ridge(at(0, 0), at(40, 10), checks)?.run).toBe('runs-on');
  });

  test('a quarter of a check over on both sides, they meet mirrored: a check half as high as the others', () => {
    expect(ridge(at(0, 2.5), at(0, 2.5), checks)?.run).toBe('meets');
    // 22.5 on the one and 17.5 on the other are 40 together: four whole checks.
    expect(ridge(at(0, 2.5), at(0, -2.5), checks)?.run).toBe('runs-on');
  });

  test('one slope 3 to the side breaks them by 3', () => {
    const match = ridge(at(0, 0), at(3, 0), checks);
    expect(match?.run).toBe('breaks');
    expect(match?.off).toBeCloseTo(3, 12);
    expect(ridge(at(0, 0), at(3, 0), stripes)?.off).toBeCloseTo(3, 12);
    // Half a millimetre is what a hand cuts to.
    expect(ridge(at(0, 0), at(0.4, 0), checks)?.run).toBe('runs-on');
  });

  test('checks laid crosswise are the same checks, stripes are not', () => {
    expect(ridge(at(0, 0), at(0, 0, 1), checks)?.run).toBe('runs-on');
    expect(ridge(at(0, 0), at(0, 0, 1), stripes)?.run).toBe('breaks');
  });

  test('slates go round a hip in one course where both panels stand equally high on their courses', () => {
    expect(hip(at(0, 0), at(100, 12), slates)?.run).toBe('meets');
    const match = hip(at(0, 0), at(100, 14), slates);
    expect(match?.run).toBe('breaks');
    expect(match?.off).toBeCloseTo(2, 12);
  });

  test('stripes of one width meet at a hip where their middles are whole stripes apart', () => {
    // Right corner 30 on the one, left corner 50 on the other: 80 together, eight stripes.
    expect(hip(at(0, 0), at(50, 0), stripes)?.run).toBe('meets');
    expect(hip(at(0, 0), at(54, 0), stripes)?.off).toBeCloseTo(4, 12);
  });

  test('slates turned upside down do not meet those that stand', () => {
    expect(ridge(at(0, 0), at(30, 20, 2), slates)?.run).toBe('breaks');
  });

  test('plain paper has nothing to follow', () => {
    expect(ridge(at(0, 0), at(3, 3), { x: null, y: null, isSquare: false })).toBeNull();
  });
});

const far = fc.double({ min: -300, max: 300, noNaN: true });
const turn = fc.integer({ min: 0, max: 3 });

describe('laws', () => {
  test('whole repeats more to any side change nothing', () => {
    fc.assert(
      fc.property(
        far,
        far,
        turn,
        turn,
        fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 })),
        (x, y, q, r, [i, j]) => {
          for (const print of [checks, stripes, slates]) {
            const before = ridge(at(0, 0, q), at(x, y, r), print);
            const after = ridge(at(0, 0, q), at(x + i * 30, y + j * 30, r), print);
            expect(after?.off).toBeCloseTo(before?.off ?? Number.NaN, 9);
          }
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test('it is the same read from either side, and nothing is farther off than half a repeat along a straight print', () => {
    fc.assert(
      fc.property(far, far, turn, (x, y, q) => {
        const sides = [
          { path: southRidge, motion: at(0, 0) },
          { path: northRidge, motion: at(x, y, q) },
        ] as const;
        const there = matchPrint(sides, checks);
        const back = matchPrint([sides[1], sides[0]], checks);
        expect(back?.off).toBeCloseTo(there?.off ?? Number.NaN, 9);
        expect(back?.run).toBe(there?.run);
        if (there?.run === 'breaks') expect(there.off).toBeLessThanOrEqual(5);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('on a made roof', () => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Net loft',
    units: 'mm',
    stock: [{ id: 'slate', width: 400, height: 400 }],
    roofs: [
      {
        id: 'loft',
        kind: 'hip',
        shape: { width: 90, depth: 60, pitch: 40 },
        layers: [{ as: 'cover', stock: 'slate' }],
      },
    ],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { project } = read.value;
  const [spec] = project.roofs;
  if (!spec) throw new Error('no roof');
  const layer = makeRoof(spec, project, 0).made?.layers[0];
  if (!layer) throw new Error('no layer');
  const { net, solid } = layer;
  const whole: LaidLayer = { roof: 0, layer: 0, copy: 0 };
  const laidAt = (place: (piece: number) => Vec2) => [
    {
      stock: 0,
      index: 0,
      width: 400,
      height: 400,
      used: 0,
      placements: net.pieces.map((_, piece) => {
        const [x, y] = place(piece);
        return { roof: 0, layer: 0, piece, copy: 0, x, y, rotation: 0 };
      }),
    },
  ];

  test('both sides of every seam are the same line of the roof', () => {
    expect(net.seams.length).toBeGreaterThan(3);
    // A print that changes with the height on the roof alone meets at every seam, once each piece lies at its height.
    const eave = net.pieces.map((piece) =>
      Math.min(...piece.panels.flatMap(({ polygon }) => polygon.map(([, y]) => y))),
    );
    const found = matchSeams(
      solid,
      net,
      whole,
      laidAt((piece) => [0, 60 - (eave[piece] ?? 0)]),
      () => slates,
    );
    expect(found.map(({ edge }) => edge).sort()).toEqual(net.seams.map(({ edge }) => edge).sort());
    for (const { run, mark } of found) expect(run, mark).not.toBe('breaks');
    const raised = matchSeams(
      solid,
      net,
      whole,
      laidAt((piece) => [0, 60 - (eave[piece] ?? 0) + (piece === 0 ? 2 : 0)]),
      () => slates,
    );
    const touched = net.seams.filter(({ sides }) => sides.some(({ piece }) => piece === 0)).map(({ edge }) => edge);
    expect(
      raised
        .filter(({ run }) => run === 'breaks')
        .map(({ edge }) => edge)
        .sort(),
    ).toEqual(touched.sort());
    for (const { run, off } of raised) if (run === 'breaks') expect(off).toBeCloseTo(2, 9);
  });

  test('a seam between two papers breaks, and plain paper says nothing', () => {
    const [sheet] = laidAt(() => [0, 0]);
    if (!sheet) throw new Error('no sheet');
    const apart = sheet.placements.map((placement, i) => ({
      ...sheet,
      stock: i === 0 ? 1 : 0,
      placements: [placement],
    }));
    const found = matchSeams(solid, net, whole, apart, () => stripes);
    const touched = net.seams.filter(({ sides }) => sides.some(({ piece }) => piece === 0)).map(({ edge }) => edge);
    expect(
      found
        .filter(({ off }) => off === null)
        .map(({ edge }) => edge)
        .sort(),
    ).toEqual(touched.sort());
    expect(matchSeams(solid, net, whole, apart, () => null)).toEqual([]);
  });
});
