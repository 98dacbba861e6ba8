import { closing, mismatchOf, worst } from '../fit/closing.ts';
import { HAND_MM } from '../fit/hand-cut.ts';
import { ruledMarks } from '../fit/marks.ts';
import type { Issue } from '../issue.ts';
import type { MadeLayer } from '../make-roof.ts';
import { type Ruler, rulerStep, rulers, rulerUnits } from '../units/units.ts';

/** Two hands, each as steady as can be asked for: what a seam may be off without being seen. */
const SEEN_MM = 2 * HAND_MM;

/** Seams of the layers on a sheet that the ruler leaves too far apart, with the coarsest ruler that would do. */
export function coarseIssues(items: readonly { readonly layer: MadeLayer }[], ruler: Ruler): readonly Issue[] {
  const layers = [...new Set(items.map(({ layer }) => layer))];
  const gap = widest(layers, ruler);
  if (gap <= SEEN_MM) return [];
  const finer = [...rulers]
    .filter((one) => rulerStep(one) < rulerStep(ruler))
    .sort(
      (a, b) =>
        Number(rulerUnits(b) === rulerUnits(ruler)) - Number(rulerUnits(a) === rulerUnits(ruler)) ||
        rulerStep(b) - rulerStep(a),
    )
    .find((one) => widest(layers, one) <= SEEN_MM);
  return [
    {
      level: 'warning',
      code: 'ruler-too-coarse',
      path: 'ruler',
      numbers: { gap },
      message: `Marks of ${spoken(ruler)} leave two edges that are glued together further apart than a steady hand would.`,
      remedy: finer
        ? `A ruler with marks of ${spoken(finer)} would do.`
        : 'No ruler would do: print these pieces, or trace a printed template.',
    },
  ];
}

/** The widest that seams and peaks are left apart, mm. */
const widest = (layers: readonly MadeLayer[], ruler: Ruler): number =>
  worst(
    layers.flatMap((layer) => {
      if ('seat' in layer) return [];
      const { seams, peaks } = closing(layer.solid, layer.net, ruledMarks(layer.solid, layer.net, ruler));
      return [...seams.map(mismatchOf), ...peaks.map(({ gap }) => gap)];
    }),
  );

/** `1/16 in`, `0.5 mm`. */
export const spoken = (ruler: Ruler): string => ruler.replace(/(in|mm)$/, ' $1');
