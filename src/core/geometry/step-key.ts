/** A number for the step between two of so many things, in its direction. */
export const stepKeys =
  (count: number) =>
  (from: number, to: number): number =>
    from * count + to;
