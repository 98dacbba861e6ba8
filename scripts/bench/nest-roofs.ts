import { boxedRing, ringDepth } from '../../src/core/geometry/convex-parts.ts';
import { boxOf, ringArea } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import type { PieceToLay } from '../../src/core/layout/layout.ts';
import { type NestPlacement, type NestProblem, nestSheets, type Ring } from '../../src/core/layout/nest/nest.ts';
import { laidRing } from '../../src/core/layout/placed.ts';
import { quickLayout } from '../../src/core/layout/quick-layout.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import { seeded } from '../../src/core/random.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { jobOf } from './job-of.ts';
import { proveNest } from './nest-proof.ts';
import { cpuSeconds, TOUCHING } from './nest-sets.ts';

/** A sheet of A4 with a margin off, mm. */
const [WIDTH, HEIGHT] = [198, 285];
const SEED = 7;

/** The flapped panels of ten roofs: three pyramids, three hips, two spires of six and two of twelve panels; 60 in all. */
export function tenRoofs(draw: number = SEED): readonly Ring[] {
  const next = seeded(draw);
  const size = (least: number, most: number): number => least + next() * (most - least);
  const roofs = [
    ...Array.from({ length: 3 }, () => ({
      kind: 'pyramid',
      shape: { width: size(35, 60), depth: size(35, 60), rise: size(30, 70) },
    })),
    ...Array.from({ length: 3 }, () => ({
      kind: 'hip',
      shape: { width: size(60, 90), depth: size(35, 50), rise: size(20, 40) },
    })),
    ...[6, 6, 12, 12].map((sides) => ({
      kind: 'spire',
      shape: { sides, acrossFlats: size(35, 60), rise: size(60, 110) },
    })),
  ];
  return roofs.flatMap(({ kind, shape }) => {
    const built = findKind(kind)?.build(shape, null);
    if (!built?.ok) throw new Error(`a ${kind} of the bench cannot be built`);
    const flaps = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;
    return buildNet(built.value, { pieces: 'per-panel', flaps }).net.pieces.map(({ outline }) => outline);
  });
}

export interface RoofsOnSheets {
  readonly pieces: number;
  /** The layout in rows that the page shows at once. */
  readonly rows: Filled;
  /** Processor seconds until the first layout of the search. */
  readonly first: number;
  /** Sheets, of the last one only the share that is used: at first, after 3 s, and after the whole time. */
  readonly costs: readonly [first: number, short: number, long: number];
  /** The plain bottom-left fill: the same measure, and its time. */
  readonly plain: Filled;
}

interface Filled {
  readonly cost: number;
  readonly seconds: number;
}

export function roofsOnSheets(long: number): RoofsOnSheets {
  const outlines = tenRoofs();
  const sheet: Ring = [
    [0, 0],
    [WIDTH, 0],
    [WIDTH, HEIGHT],
    [0, HEIGHT],
  ];
  const problem: NestProblem = {
    pieces: outlines.map((outline) => ({ outline, choices: [{ kind: 0, turns: [0, Math.PI] }] })),
    sheets: [{ parts: [sheet], count: null, gap: 0, taken: [] }],
  };
  const rows = timed(() => inRows(outlines));
  const start = cpuSeconds();
  let [firstTime, first, short, last] = [0, 0, 0, 0];
  let placements: readonly NestPlacement[] = [];
  for (const { layout } of nestSheets(problem, { seed: 1, rounds: 0, share: () => (cpuSeconds() - start) / long })) {
    const time = cpuSeconds() - start;
    if (firstTime === 0) [firstTime, first] = [time, layout.cost];
    if (time <= 3) short = layout.cost;
    last = layout.cost;
    placements = layout.placements;
  }
  const { overlap, outside, missing } = proveNest(outlines, placements, WIDTH, HEIGHT);
  if (overlap > TOUCHING || outside > TOUCHING || missing > 0) throw new Error('the layout of the ten roofs is wrong');
  return {
    pieces: outlines.length,
    rows,
    first: firstTime,
    costs: [first, short, last],
    plain: timed(() => bottomLeftFill(outlines)),
  };
}

/**
 * A plain bottom-left fill for comparison: tallest first, upright, each at the lowest free corner of the boxes laid so far, on the
 * first sheet that has room. Sheets, of the last one only the share that is used along its better side.
 */
function bottomLeftFill(outlines: readonly Ring[]): number {
  const order = outlines.toSorted((a, b) => boxOf(b).maxY - boxOf(a).maxY || ringArea(b) - ringArea(a));
  const sheets: Ring[][] = [];
  for (const outline of order) {
    const at = sheets.findIndex((laid) => dropInto(laid, outline));
    if (at >= 0) continue;
    const fresh: Ring[] = [];
    dropInto(fresh, outline);
    sheets.push(fresh);
  }
  return sheetsUsed(sheets);
}

function timed(fill: () => number): Filled {
  const before = cpuSeconds();
  const cost = fill();
  return { cost, seconds: cpuSeconds() - before };
}

/** Sheets, of one of them only the share that is used along its better side. */
function sheetsUsed(sheets: readonly (readonly Ring[])[]): number {
  const rests = sheets.map((laid) => {
    const { maxX, maxY } = boxOf(laid.flat());
    return Math.max(1 - maxX / WIDTH, 1 - maxY / HEIGHT);
  });
  return sheets.length - Math.max(...rests);
}

function inRows(outlines: readonly Ring[]): number {
  const job = jobOf(
    outlines.map((outline) => ({ outline, w: boxOf(outline).maxX, h: boxOf(outline).maxY })),
    [WIDTH, HEIGHT],
    { direction: 'two-way', count: null, cuts: 'free' },
  );
  const { sheets } = quickLayout(job);
  return sheetsUsed(
    sheets.map(({ placements }) => placements.map((one) => laidRing(job.pieces[one.piece] as PieceToLay, one))),
  );
}

function dropInto(laid: Ring[], outline: Ring): boolean {
  const { maxX: width, maxY: height } = boxOf(outline);
  const boxes = laid.map((ring) => boxOf(ring));
  const others = laid.map(boxedRing);
  const spots = [0, ...boxes.map(({ maxY }) => maxY)]
    .flatMap((y) => [0, ...boxes.map(({ maxX }) => maxX)].map((x): Vec2 => [x, y]))
    .filter(([x, y]) => x + width <= WIDTH && y + height <= HEIGHT)
    .sort((a, b) => a[1] - b[1] || a[0] - b[0]);
  for (const [x, y] of spots) {
    const ring = outline.map(([px, py]): Vec2 => [px + x, py + y]);
    const boxed = boxedRing(ring);
    if (others.some((other) => ringDepth(boxed, other) > TOUCHING)) continue;
    laid.push(ring);
    return true;
  }
  return false;
}
