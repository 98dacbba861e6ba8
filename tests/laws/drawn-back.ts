import fc from 'fast-check';
import { expect } from 'vitest';
import { at, type Box, boxOf } from '../../src/core/geometry/polygon.ts';
import { distance2, type Vec2 } from '../../src/core/geometry/vector.ts';
import type { Net, Piece } from '../../src/core/net/net.ts';
import { makeSetOut } from '../../src/core/setout/make-set-out.ts';
import { distanceToLine } from '../../src/core/setout/plan-curve.ts';
import type { SetOut, SetOutLine, SetOutStrip, UpSide } from '../../src/core/setout/set-out.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { type Ruler, rulerStep, rulers, rulerUnits } from '../../src/core/units/units.ts';
import { scatter } from './scatter.ts';
import { Reader, type ReadLine, type ReadStrip } from './set-out-reader.ts';

/** Any ruler, either side up, pieces at any angle. */
export const scattering = {
  up: fc.constantFrom<UpSide>('wrong', 'right'),
  ruler: fc.constantFrom<Ruler>(...rulers),
  gap: fc.constantFrom(0, 4),
  turns: fc.array(
    fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(0, Math.PI / 2, Math.PI, -Math.PI / 2) },
      { weight: 1, arbitrary: fc.double({ min: 0, max: 6, noNaN: true }) },
    ),
    { minLength: 1, maxLength: 5 },
  ),
};

export const follow = (strip: SetOutStrip, ruler: Ruler, templates: ReadonlyMap<string, ReadStrip> = new Map()) =>
  new Reader([strip.width, strip.height], rulerUnits(ruler), templates).read(strip.steps.map(({ text }) => text));

/** The templates that the steps of a sheet ask for, made by their own steps. */
export const makeTemplates = ({ templates, ruler }: SetOut): ReadonlyMap<string, ReadStrip> =>
  new Map(
    templates.flatMap(({ strip, hold }) =>
      hold ? [[strip.title.replace('Template of ', ''), follow(strip, ruler)] as const] : [],
    ),
  );

/** Lines cut into short runs, each with its box. */
type Runs = readonly { readonly run: readonly Vec2[]; readonly box: Box }[];

const RUN = 16;

const runsOf = (paths: readonly (readonly Vec2[])[]): Runs =>
  paths.flatMap((path) =>
    Array.from({ length: Math.ceil((path.length - 1) / RUN) }, (_, i) => {
      const run = path.slice(i * RUN, (i + 1) * RUN + 1);
      return { run, box: boxOf(run) };
    }),
  );

/** How far a point is from the nearest of some lines; a run whose box is farther off than another is passed over. */
function nearest([x, y]: Vec2, lines: Runs): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { run, box } of lines) {
    if (Math.hypot(Math.max(0, box.minX - x, x - box.maxX), Math.max(0, box.minY - y, y - box.maxY)) >= least) continue;
    for (let i = 1; i < run.length; i++) {
      least = Math.min(least, distanceToLine([x, y], run[i - 1] as Vec2, run[i] as Vec2));
    }
  }
  return least;
}

const closed = (ring: readonly Vec2[]): readonly Vec2[] => [...ring, ring[0] as Vec2];

export interface Scattering {
  readonly up: UpSide;
  readonly ruler: Ruler;
  readonly turns: readonly number[];
  readonly gap: number;
}

/**
 * Sets the pieces of a net out by ruler where they are scattered over a sheet, follows the sentences, and compares what is drawn
 * with the pieces; returns the set-out.
 */
export function expectDrawnBack(
  { solid, net, isSeat = false }: { readonly solid: Solid; readonly net: Net; readonly isSeat?: boolean },
  { up, ruler, turns, gap }: Scattering,
): SetOut {
  const isRound = solid.faces.some((face) => face.roll);
  const { production, sheet } = scatter({ solid, isSeat }, net, turns, gap);
  const out = makeSetOut(production, sheet, { ruler, up });
  const step = rulerStep(ruler);
  const told = out.strips.flatMap(({ pieces: own }) => own);
  expect(told.map((one) => one.piece).sort((a, b) => a - b)).toEqual(net.pieces.map((_piece, i) => i));
  const templates = makeTemplates(out);
  for (const strip of out.strips) {
    const { lines, marks } = follow(strip, ruler, templates);
    for (const { text } of strip.steps) expect(text).not.toMatch(/ -\d/);
    expect([...marks.values()].every((p, i) => distance2(p, strip.marks[i]?.at as Vec2) < 1e-6)).toBe(true);
    expectSameLines(lines, strip.lines);
    const border: readonly Vec2[] = [
      [0, 0],
      [strip.width, 0],
      [strip.width, strip.height],
      [0, strip.height],
      [0, 0],
    ];
    const work = runsOf([
      border,
      ...lines.filter(({ use }) => use === 'cut' || use === 'score').map(({ points }) => points),
    ]);
    // One of strips that are told once stands for all.
    for (const one of strip.pieces.slice(0, strip.pieces.length / strip.times)) {
      const piece = net.pieces[one.piece] as Piece;
      expectSameShape(one.outline, piece.outline, up);
      const isToothed = [...piece.flaps, ...piece.hems].some((flap) => flap.base > 1 || isCurved(solid, flap.edge));
      const limit = Math.max(one.off, one.flapOff) + one.spread + 0.02;
      if (!isToothed) for (const p of one.outline) expect(nearest(p, work)).toBeLessThanOrEqual(limit);
      expect(one.off).toBeLessThanOrEqual((isRound ? ROUND_BOUND : BOUND) * step + 0.02);
    }
    if (isRound) continue;
    const own = strip.pieces.slice(0, strip.pieces.length / strip.times);
    const outlines = runsOf(own.map(({ outline }) => closed(outline)));
    const most = Math.max(...strip.pieces.map(({ off, flapOff, spread }) => Math.max(off + spread, flapOff)));
    for (const { use, points } of lines) {
      if (use !== 'cut') continue;
      for (const p of points) expect(nearest(p, outlines)).toBeLessThanOrEqual(most + 2 * step + 0.05);
    }
  }
  return out;
}

/** Corners are off by a step both ways at most; at an angle the whole piece turns by as much again. */
const BOUND = 2.2;
/** Up to seven chords, each half a step off, along an arc that is steeper than they are. */
const ROUND_BOUND = 6;

const isCurved = (solid: Solid, edge: number): boolean => solid.edges[edge]?.via !== undefined;

/** Every line that is told is in the picture, where it is told to be: teeth and arcs too. */
function expectSameLines(told: readonly ReadLine[], drawn: readonly SetOutLine[]): void {
  expect(told.length).toBe(drawn.length);
  told.forEach(({ points, use }, i) => {
    const own = drawn[i] as SetOutLine;
    expect(use).toBe(own.use === 'mountain' || own.use === 'valley' ? 'score' : own.use);
    const pairs =
      points.length === own.points.length
        ? points.map((p, k) => [p, own.points[k] as Vec2] as const)
        : ([0, -1] as const).map((k) => [at(points, k), at(own.points, k)] as const);
    for (const [p, q] of pairs) expect(distance2(p, q)).toBeLessThan(0.05);
  });
}

/** The same outline, turned over where the wrong side is up. */
function expectSameShape(seen: readonly Vec2[], outline: readonly Vec2[], up: UpSide): void {
  expect(seen.length).toBe(outline.length);
  seen.forEach((p, i) => {
    expect(distance2(p, at(seen, i + 1))).toBeCloseTo(distance2(outline[i] as Vec2, at(outline, i + 1)), 6);
    const turn = (a: Vec2, b: Vec2, c: Vec2): number => (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    const [before, now] = [outline, seen].map((ring) => turn(at(ring, i - 1), at(ring, i), at(ring, i + 1))) as [
      number,
      number,
    ];
    expect(now).toBeCloseTo(up === 'wrong' ? -before : before, 4);
  });
}
