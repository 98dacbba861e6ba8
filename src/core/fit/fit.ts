/** How well the net closes and sits on the body. Lengths in mm. */
export interface Fit {
  /** Plan distance from the body's walls out to the eave; null without a body. */
  readonly overhang: { readonly min: number; readonly max: number } | null;
  /** Largest difference between the two sides of a seam once every mark is rounded to the ruler. */
  readonly seamMismatch: number;
  /** Largest gap between panels at a top point once every mark is rounded to the ruler. */
  readonly peakGap: number;
  /** Height of the eave plane over the table when the roof rests on its body; 0 without one. */
  readonly rest: number;
  /** As `Closes within 1/64 in.` */
  readonly sentence: string;
}
