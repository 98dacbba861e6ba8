import { describe, expect, test } from 'vitest';
import type { LaidSheet, Placement } from '../../src/core/layout/layout.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Net } from '../../src/core/net/net.ts';
import type { Production } from '../../src/core/pipeline.ts';
import type { SeamChoices, ShapeValues } from '../../src/core/project/project.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { makeSetOut } from '../../src/core/setout/make-set-out.ts';
import type { UpSide } from '../../src/core/setout/set-out.ts';
import { MM_PER_INCH, type Ruler } from '../../src/core/units/units.ts';
import { roundDevelopments } from './round-developments.ts';

const inches = (n: number): number => n * MM_PER_INCH;

function make(kind: string, shape: ShapeValues, seams: SeamChoices = {}) {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error('no roof');
  const flaps = {
    width: inches(1 / 4),
    on: Object.keys(seams).length > 0 ? 'none' : 'alternate',
    clearance: 0.5,
    least: 2,
  } as const;
  return { solid: built.value, net: buildNet(built.value, { pieces: 'per-panel', flaps, seams }).net };
}

type Made = ReturnType<typeof make>;

/** A strip of these sizes, in inches, with pieces where they are put. */
function setOut(
  { solid, net }: Made,
  [width, height]: readonly [number, number],
  placements: readonly Pick<Placement, 'piece' | 'x' | 'y' | 'rotation'>[],
  { up = 'right', ruler = '1/16in' }: { readonly up?: UpSide; readonly ruler?: Ruler } = {},
) {
  const sheet: LaidSheet = {
    stock: 0,
    index: 0,
    width: inches(width),
    height: inches(height),
    used: 0,
    placements: placements.map((one, copy) => ({ roof: 0, layer: 0, copy, ...one })),
  };
  const layer = { spec: { as: 'cover' }, thickness: 0, solid, net };
  const production = {
    project: { ruler, stock: [{ margin: 0 }] },
    roofs: [{ spec: { title: 'Light tower', copies: 1 }, made: { solid, layers: [layer], seat: null }, issues: [] }],
  } as unknown as Production;
  return makeSetOut(production, sheet, { ruler, up });
}

const texts = (out: ReturnType<typeof setOut>): readonly string[] =>
  out.strips.flatMap(({ steps }) => steps.map(({ text }) => text));

const flapped = ({ pieces }: Net): number => pieces.findIndex(({ flaps }) => flaps.length === 2);
const plain = ({ pieces }: Net): number => pieces.findIndex(({ flaps }) => flaps.length === 0);

/** Upright from its left end; on its peak about an upright middle line. All in inches. */
const upright = (piece: number, left: number) => ({ piece, x: inches(left), y: 0, rotation: 0 });
const inverted = (piece: number, middle: number, base: number) => ({
  piece,
  x: inches(middle + base / 2),
  y: inches(3),
  rotation: Math.PI,
});

describe('marks of the first roofs (common practice, no published source)', () => {
  const small = make('pyramid', { width: inches(2 + 1 / 8), depth: inches(2 + 1 / 8), slant: inches(3) });
  const large = make('pyramid', { width: inches(2 + 3 / 8), depth: inches(2 + 3 / 8), slant: inches(3) });

  test('base 2 1/8, strip 3 in high: 1/4, 2 3/8, 2 5/8 below and 1 5/16 above; flaps by the ruler’s 1/4 line', () => {
    const out = setOut(small, [12, 3], [upright(flapped(small.net), 0)]);
    expect(out.trims).toEqual([]);
    expect(texts(out).slice(0, 3)).toEqual([
      'Bottom edge, from the left: tick 1/4, 2 3/8 and short 2 5/8. Marks 1 to 3.',
      'Top edge, from the left: tick 1 5/16. Mark 4.',
      'Join 2, 4 and 1: lines to score, mountains on this side.',
    ]);
    expect(texts(out)[3]).toMatch(/^Lay the ruler’s 1\/4 line on line 2–4, zero at 2, its edge to its right: tick /);
  });

  test('base 2 3/8: 1/4, 2 5/8, 2 7/8 below and 1 7/16 above', () => {
    const out = setOut(large, [12, 3], [upright(flapped(large.net), 0)]);
    expect(texts(out).slice(0, 2)).toEqual([
      'Bottom edge, from the left: tick 1/4, 2 5/8 and short 2 7/8. Marks 1 to 3.',
      'Top edge, from the left: tick 1 7/16. Mark 4.',
    ]);
  });

  test.each([
    [small, 2 + 1 / 8, '1 1/16'],
    [large, 2 + 3 / 8, '1 3/16'],
  ] as const)('an inverted plain panel stands about its middle line at 3 in (base %#)', (made, base, half) => {
    const out = setOut(made, [12, 3], [upright(flapped(made.net), 0), inverted(plain(made.net), 3.25, base)]);
    expect(texts(out).slice(-5)).toEqual([
      expect.stringMatching(/^Bottom edge, from the left: tick 3 1\/4\. Mark \d+\.$/),
      expect.stringMatching(
        new RegExp(`^Top edge: tick ${half} either side of 3 1/4 from the left\\. Marks \\d+ and \\d+\\.$`),
      ),
      expect.stringMatching(/^Join \d+, \d+ and \d+: lines to cut\.$/),
      'Score every line to score.',
      'Cut along every line to cut.',
    ]);
  });

  test('the plain panel beside the small one at 3 in', () => {
    const out = setOut(small, [12, 3], [upright(flapped(small.net), 0), inverted(plain(small.net), 3, 2 + 1 / 8)]);
    expect(texts(out).filter((text) => text.includes('either side'))).toEqual([
      expect.stringMatching(/^Top edge: tick 1 1\/16 either side of 3 from the left\./),
    ]);
  });

  test('plain triangles from the right: 2 1/8 below, 1 1/16 and then 2 1/8 on above', () => {
    const base = 2 + 1 / 8;
    const piece = plain(small.net);
    const out = setOut(small, [12, 3], [upright(piece, 12 - base), inverted(piece, 12 - base, base)]);
    expect(texts(out)).toEqual([
      'The lower right corner is mark 1.',
      'Bottom edge, from the right: tick 2 1/8. Mark 2.',
      'Top edge, from the right: tick 1 1/16, then 2 1/8 on. Marks 3 and 4.',
      'Join 1, 3, 2 and 4: lines to cut.',
      'Cut along every line to cut.',
    ]);
    expect(out.strips[0]?.pieces.every(({ off }) => off < 1e-9)).toBe(true);
  });

  /** Both slopes in one piece, without flaps of its own. */
  const coverAlone: SeamChoices = { 'ridge-south-north': { join: 'fold' } };

  test('a gable cover 2 1/4 in deep in one strip over both slopes: 7 1/4 in long, scored at 3 5/8', () => {
    const gable = make('gable', { width: inches(2.25), depth: inches(5), slant: inches(3 + 5 / 8) }, coverAlone);
    const piece = gable.net.pieces.findIndex(({ panels }) => panels.length === 2);
    const out = setOut(
      gable,
      [12, 4],
      [{ piece, x: gable.net.pieces[piece]?.height ?? 0, y: 0, rotation: Math.PI / 2 }],
    );
    expect(out.trims.map(({ text }) => text)).toEqual([
      'Set the stop at 2 1/4. Cut one strip across the whole width, from the bottom edge up.',
    ]);
    expect(texts(out).filter((text) => text.includes('edge'))).toEqual([
      'Bottom edge, from the left: tick 3 5/8 and 7 1/4. Marks 2 and 3.',
      expect.stringMatching(/^Top edge, from the left: tick 3 5\/8 and 7 1\/4\. Marks \d and \d\.$/),
    ]);
    expect(texts(out)).toContain('Trimmer: cut across at 7 1/4 from the left.');
    expect(texts(out).filter((text) => text.startsWith('Join'))).toEqual([
      expect.stringMatching(/: a line to score, a mountain on this side\.$/),
      expect.stringMatching(/: a line to cut\.$/),
    ]);
  });

  test('the wrong side is the same turned over: other ends, and folds that have changed places', () => {
    const side = inches(12) - (small.net.pieces[flapped(small.net)]?.width ?? 0);
    const out = setOut(small, [12, 3], [{ piece: flapped(small.net), x: side, y: 0, rotation: 0 }], { up: 'wrong' });
    expect(texts(out).slice(0, 3)).toEqual([
      'Bottom edge, from the left: tick 1/4, 2 3/8 and short 2 5/8. Marks 1 to 3.',
      'Top edge, from the left: tick 1 5/16. Mark 4.',
      expect.stringMatching(/^Join .+: lines to score, valleys on this side\.$/),
    ]);
    expect(out.upSentence).toContain('The wrong side of the paper is up');
  });
});

test('what rounding does to each seam is told: the hips of an oblong pyramid on a coarse ruler', () => {
  const oblong = make('pyramid', { width: 50, depth: 71, rise: 40 });
  const out = setOut(
    oblong,
    [12, 3],
    [0, 1, 2, 3].map((piece) => upright(piece, 3 * piece + 0.5)),
    { ruler: '1/8in' },
  );
  // Each hip is drawn on two pieces; its length on each as the picture has it.
  const hips = (out.strips[0]?.lines ?? []).flatMap(({ points }) =>
    points.slice(1).flatMap((q, i) => {
      const [x, y] = points[i] as readonly [number, number];
      const length = Math.hypot(q[0] - x, q[1] - y);
      return length > 45 && length < 75 && Math.abs(q[1] - y) > 30 ? [length] : [];
    }),
  );
  expect(hips.length).toBe(8);
  const gap = Math.max(...hips) - Math.min(...hips);
  expect(gap).toBeGreaterThan(0.05);
  expect(out.seams.alike).toBe(0);
  expect(out.seams.apart.map(({ marks }) => marks)).toEqual([['A', 'B', 'C', 'D']]);
  expect(out.seams.apart[0]?.gap).toBeCloseTo(gap, 6);
  expect(out.seamSentences).toEqual([
    `Light tower, seams A, B, C and D: in each one side is ${inchText(gap)} longer than the other.`,
  ]);
});

const inchText = (mm: number): string => `${(mm / MM_PER_INCH).toFixed(3)} in`;

describe('cones by compass, against printed developments', () => {
  const printed = roundDevelopments.filter(({ printed: { sector }, top }) => sector !== undefined && top === undefined);

  test.each(printed.map((one) => [one.name, one] as const))(
    '%s',
    (_, { radius, unit, given, printed: { sector, slant } }) => {
      // Scaled to a model 120 mm wide; angles stay, and lengths scale.
      const scale = 60 / (radius * unit);
      const size = 'rise' in given ? { rise: given.rise * unit * scale } : { slant: given.slant * unit * scale };
      const cone = make('cone', { diameter: 120, ...size });
      const [piece] = cone.net.pieces;
      const [w, h] = [(piece?.width ?? 0) / MM_PER_INCH + 12, (piece?.height ?? 0) / MM_PER_INCH + 12];
      const out = setOut(cone, [w, h], [{ piece: 0, x: 150, y: 150, rotation: 0 }], { ruler: '0.5mm' });
      const [, angle, told, drawn] =
        /^A sector of ([\d.]+)°, radius ([\d.]+) mm; by these marks ([\d.]+)°\.$/.exec(out.strips[0]?.notes[0] ?? '') ??
        [];
      expect(Number(angle)).toBeCloseTo(Number(sector), 0);
      expect(Math.abs(Number(angle) - Number(sector))).toBeLessThanOrEqual(0.051);
      if (slant) expect(Number(told)).toBeCloseTo(Number(slant) * unit * scale, 1);
      // Half a millimetre on a chord of at least 20 mm, over four steps at most.
      expect(Math.abs(Number(drawn) - Number(angle))).toBeLessThan(1.5);
      expect(texts(out).some((text) => /^Compass on \d+, opened [\d.]+: draw an arc/.test(text))).toBe(true);
    },
  );
});

describe('frustums by compass, against printed developments', () => {
  const printed = roundDevelopments.filter(({ printed: { sector }, top }) => sector !== undefined && top !== undefined);

  test.each(printed.map((one) => [one.name, one] as const))(
    '%s',
    (_, { radius, top = 0, unit, given, printed: { sector, outer, inner } }) => {
      const scale = 60 / (radius * unit);
      const run = (radius - top) * unit * scale;
      const rise =
        'rise' in given ? given.rise * unit * scale : Math.sqrt((given.slant * unit * scale) ** 2 - run ** 2);
      const { solid, net } = make('conical-frustum', { diameter: 120, rise, pitch: Math.atan2(rise, run) });
      const piece = net.pieces.findIndex(({ panels }) => panels.length === 2);
      const { width = 0, height = 0 } = net.pieces[piece] ?? {};
      const room = (mm: number): number => mm / MM_PER_INCH + 24;
      const out = setOut({ solid, net }, [room(width), room(height)], [{ piece, x: 300, y: 300, rotation: 0 }], {
        ruler: '0.5mm',
      });
      const [, angle, first, second, drawn] =
        /^A sector of ([\d.]+)°, radius ([\d.]+) mm and ([\d.]+) mm; by these marks ([\d.]+)°\.$/.exec(
          out.strips[0]?.notes[0] ?? '',
        ) ?? [];
      expect(Math.abs(Number(angle) - Number(sector))).toBeLessThanOrEqual(0.051);
      for (const [told, figure] of [
        [first, outer],
        [second, inner],
      ] as const) {
        if (figure) expect(Number(told)).toBeCloseTo(Number(figure) * unit * scale, 1);
      }
      expect(Math.abs(Number(drawn) - Number(angle))).toBeLessThan(1.5);
      // Both arcs, and that of the teeth, from one centre.
      const arcs = texts(out).flatMap((text) => /^Compass on (\d+), opened [\d.]+: draw an arc/.exec(text)?.[1] ?? []);
      expect(arcs.length).toBeGreaterThanOrEqual(2);
      expect(new Set(arcs).size).toBe(1);
    },
  );
});
