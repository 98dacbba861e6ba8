import { type Closing, closing, type MarkedSeam, mismatchOf, worst } from '../fit/closing.ts';
import { HAND_MM } from '../fit/hand-cut.ts';
import { ruledMarks } from '../fit/marks.ts';
import type { Issue } from '../issue.ts';
import type { Placement } from '../layout/layout.ts';
import type { MadeLayer } from '../make-roof.ts';
import { NOISE_MM } from '../tolerance.ts';
import { type Ruler, rulerStep, rulers, rulerUnits } from '../units/units.ts';
import type { SeamGaps } from './set-out.ts';

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

/** Seams of the pieces on a sheet, each counted once: which are not of one length on both sides once all marks are rounded. */
export function seamGaps(
  items: readonly { readonly layer: MadeLayer; readonly roof: string; readonly placement: Pick<Placement, 'piece'> }[],
  ruler: Ruler,
): SeamGaps {
  const onSheet = new Map<MadeLayer, { readonly roof: string; readonly pieces: Set<number> }>();
  for (const { layer, roof, placement } of items) {
    if ('seat' in layer) continue;
    const known = onSheet.get(layer) ?? { roof, pieces: new Set() };
    onSheet.set(layer, known);
    known.pieces.add(placement.piece);
  }
  const groups = new Map<string, { readonly roof: string; readonly gap: number; readonly marks: string[] }>();
  let alike = 0;
  for (const [layer, { roof, pieces }] of onSheet) {
    const { seams } = closingOf(layer, ruler);
    layer.net.seams.forEach(({ edge, mark, sides }, s) => {
      // What ends under another layer is not joined in this one.
      if (layer.solid.edges[edge]?.isBehind) return;
      if (!sides.some(({ piece }) => pieces.has(piece))) return;
      const gap = mismatchOf(seams[s] as MarkedSeam);
      if (gap <= NOISE_MM) {
        alike++;
        return;
      }
      const key = `${roof} ${gap.toFixed(3)}`;
      const group = groups.get(key) ?? { roof, gap, marks: [] };
      groups.set(key, group);
      group.marks.push(mark);
    });
  }
  return { alike, apart: [...groups.values()].sort((a, b) => b.gap - a.gap) };
}

/** How a layer closes by marks of a ruler; every sheet that has a piece of it asks. */
function closingOf({ solid, net }: MadeLayer, ruler: Ruler): Closing {
  const known = closings.get(net) ?? new Map<Ruler, Closing>();
  closings.set(net, known);
  const found = known.get(ruler) ?? closing(solid, net, ruledMarks(solid, net, ruler));
  known.set(ruler, found);
  return found;
}

const closings = new WeakMap<MadeLayer['net'], Map<Ruler, Closing>>();

/** The widest that seams and peaks are left apart, mm. */
const widest = (layers: readonly MadeLayer[], ruler: Ruler): number =>
  worst(
    layers.flatMap((layer) => {
      if ('seat' in layer) return [];
      const { seams, peaks } = closingOf(layer, ruler);
      const joined = seams.filter(({ edge }) => !layer.solid.edges[edge]?.isBehind);
      return [...joined.map(mismatchOf), ...peaks.map(({ gap }) => gap)];
    }),
  );

/** `1/16 in`, `0.5 mm`. */
export const spoken = (ruler: Ruler): string => ruler.replace(/(in|mm)$/, ' $1');
