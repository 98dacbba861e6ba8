import type { LayerKind } from '../project/project.ts';

/** Where the net lies scored, and where its pieces stand folded, as values of t. */
export const SCORED = 0.15;
export const FOLDED = 0.6;

/** A named stop of the scrubber, as a value of t. */
export interface FoldStop {
  readonly id: string;
  readonly title: string;
  readonly t: number;
}

const onTheTable: readonly FoldStop[] = [
  { id: 'flat', title: 'Flat', t: 0 },
  { id: 'scored', title: 'Scored', t: SCORED },
  { id: 'folded', title: 'Folded', t: FOLDED },
];

/** The named stops of a roof of these layers, from the inside out: on the table all together, then one layer on the other. */
export const foldStops = (layers: readonly LayerKind[]): readonly FoldStop[] => [
  ...onTheTable,
  ...layers.map((as, l): FoldStop => {
    const t = momentsOn(l, layers.length)[1];
    const isOnly = layers.length === 1;
    const count = layers.slice(0, l + 1).filter((other) => other === as).length;
    return isOnly
      ? { id: 'on-body', title: 'On the body', t }
      : { id: `${as}-${count}-on`, title: `${layerNames[as]}${count > 1 ? ` ${count}` : ''} on`, t };
  }),
];

const layerNames: Readonly<Record<LayerKind, string>> = { board: 'Board', shell: 'Shell', cover: 'Cover' };

/** The share of the whole work in which a layer's pieces go on. */
const momentsOn = (layer: number, count: number): readonly [number, number] => [
  FOLDED + ((1 - FOLDED) * layer) / count,
  FOLDED + ((1 - FOLDED) * (layer + 1)) / count,
];

/** A layer's own moment (`poseNet`) at a moment t of the whole work: layers are folded together and go on one after another. */
export function layerMoment(t: number, layer: number, count: number): number {
  if (t <= FOLDED) return t;
  const [from, to] = momentsOn(layer, count);
  const share = Math.min(1, Math.max(0, (t - from) / (to - from)));
  // The end is exact: nothing is left of the way.
  return share === 1 ? 1 : FOLDED + (1 - FOLDED) * share;
}
