import type { Net } from '../net/net.ts';
import { seeded } from '../random.ts';
import type { Solid } from '../solid/solid.ts';
import { MM_PER_INCH } from '../units/units.ts';
import { closing, mismatchOf, worst } from './closing.ts';
import { cutMarks } from './marks.ts';

/** A steady hand keeps within a sixty-fourth of an inch of a line, mm: common practice. */
export const HAND_MM = MM_PER_INCH / 64;

const TRIALS = 200;

/** The widest gap anywhere on a roof whose panels were cut by hand, over many such roofs, mm. */
export interface HandCut {
  /** Half of the roofs close better. */
  readonly median: number;
  /** 95 in 100 close better. */
  readonly ninetyFifth: number;
}

/**
 * What cutting by hand does to the closing: every corner of every panel is drawn off its place along and across, each by
 * chance and evenly within `HAND_MM`, and the widest gap at a seam or a peak is taken; 200 times over. All layers of a roof
 * together: the widest of them counts.
 */
export function handCut(layers: readonly { readonly solid: Solid; readonly net: Net }[], seed: number): HandCut {
  const random = seeded(seed);
  const off = (): number => (2 * random() - 1) * HAND_MM;
  const gaps = Array.from({ length: TRIALS }, () =>
    worst(
      layers.flatMap(({ solid, net }) => {
        const { seams, peaks } = closing(solid, net, cutMarks(solid, off));
        return [...seams.map(mismatchOf), ...peaks.map((peak) => peak.gap)];
      }),
    ),
  ).sort((a, b) => a - b);
  const share = (part: number): number => gaps[Math.ceil(part * TRIALS) - 1] as number;
  return { median: share(0.5), ninetyFifth: share(0.95) };
}
