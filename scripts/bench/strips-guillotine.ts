import { existsSync, readFileSync } from 'node:fs';
import { boxOf, ringArea } from '../../src/core/geometry/polygon.ts';
import { checkLayout } from '../../src/core/layout/check-layout.ts';
import type { LayoutJob } from '../../src/core/layout/job.ts';
import type { Layout, PieceToLay } from '../../src/core/layout/layout.ts';
import { laidRing } from '../../src/core/layout/placed.ts';
import { bestLayout } from '../../src/core/layout/search-layout.ts';
import { trimCuts } from '../../src/core/layout/strips/trim-cuts.ts';
import { rectangle } from '../../src/core/layout/usable.ts';
import { jobOf } from './job-of.ts';
import { cpuSeconds } from './nest-sets.ts';

export interface StripRatio {
  readonly name: string;
  readonly items: number;
  /** Height over the least, or area over the most: 1 is the optimum. */
  readonly ratio: number;
  /** Straight cuts from edge to edge, and pieces that they do not part. */
  readonly cuts: number;
  readonly byHand: number;
}

/** Strips without waste, 200 wide and 200 high (E. Hopper, 2000): height in the strips of a trimmer over the optimum. */
export function* zeroWasteRatios(sets: string, seconds: number): Generator<StripRatio> {
  for (const name of [1, 2, 3, 4, 5, 6, 7].flatMap((number) => [`t${number}a`, `t${number}b`])) {
    const set = read<{ strip_width: number; optimum: { height: number }; items: (Item & { quantity: number })[] }>(
      sets,
      name,
    );
    if (!set) continue;
    const items = set.items.flatMap((item) => Array.from({ length: item.quantity }, () => item));
    const job = jobOf(items, [set.strip_width, 3 * set.optimum.height], { ...TRIMMED, direction: 'any' });
    const layout = laid(job, seconds);
    const { maxY } = boxOf(ringsOf(job, layout).flat());
    yield { name, items: items.length, ratio: maxY / set.optimum.height, ...cutsOf(job, layout) };
  }
}

// The cgcut sets give every rectangle a value of its own that is not its area: no question of a layout.

/** One sheet and any number of each rectangle, upright (J. E. Beasley, 1985): area that is laid over the most that can be. */
export function* coverRatios(sets: string, seconds: number): Generator<StripRatio> {
  for (const name of Array.from({ length: 13 }, (_, i) => `gcut${i + 1}`)) {
    const set = read<{ sheet: [number, number]; optimum: { no_rotation: number }; items: Item[] }>(sets, name);
    if (!set) continue;
    const [width, height] = set.sheet;
    const items = set.items.flatMap((item) => {
      const most = Math.floor(width / item.w) * Math.floor(height / item.h);
      return Array.from({ length: Math.min(most, MOST_COPIES) }, () => item);
    });
    const job = jobOf(items, set.sheet, { ...TRIMMED, direction: 'one-way' });
    const layout = laid(job, seconds);
    const area = ringsOf(job, layout).reduce((sum, ring) => sum + ringArea(ring), 0);
    yield { name, items: set.items.length, ratio: area / set.optimum.no_rotation, ...cutsOf(job, layout) };
  }
}

const TRIMMED = { count: 1, cuts: 'strips' } as const;

/** More copies of one rectangle on a sheet are hardly worth having. */
const MOST_COPIES = 8;

interface Item {
  readonly w: number;
  readonly h: number;
}

function read<T>(sets: string, name: string): T | null {
  const file = `${sets}/guillotine/${name}.json`;
  return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as T) : null;
}

function laid(job: LayoutJob, seconds: number): Layout {
  const begun = cpuSeconds();
  const share = (): number => (cpuSeconds() - begun) / seconds;
  const layout = bestLayout(job, { rounds: Number.POSITIVE_INFINITY, share });
  const wrong = checkLayout(job, layout);
  if (wrong.length > 0 || layout.sheets.length !== 1) throw new Error(`no layout: ${JSON.stringify(wrong)}`);
  return layout;
}

const ringsOf = ({ pieces }: LayoutJob, { sheets }: Layout) =>
  sheets.flatMap(({ placements }) => placements.map((one) => laidRing(pieces[one.piece] as PieceToLay, one)));

function cutsOf(job: LayoutJob, layout: Layout): { readonly cuts: number; readonly byHand: number } {
  const { width = 0, height = 0 } = job.stock[0] ?? {};
  const { cuts, byHand } = trimCuts(ringsOf(job, layout), rectangle(0, 0, width, height));
  return { cuts: cuts.length, byHand: byHand.flat().length };
}
