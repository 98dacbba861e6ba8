/** Where the net lies scored, and where its pieces stand folded, as values of t. */
export const SCORED = 0.15;
export const FOLDED = 0.6;

type FoldStop = 'flat' | 'scored' | 'folded' | 'on-body';

/** The named stops of the scrubber, as values of t. */
export const foldStops: readonly { readonly id: FoldStop; readonly title: string; readonly t: number }[] = [
  { id: 'flat', title: 'Flat', t: 0 },
  { id: 'scored', title: 'Scored', t: SCORED },
  { id: 'folded', title: 'Folded', t: FOLDED },
  { id: 'on-body', title: 'On the body', t: 1 },
];
