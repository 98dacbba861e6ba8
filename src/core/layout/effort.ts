/** How long is searched for a layout. */
export interface LayoutEffort {
  /** Steps of search after the first layout. */
  readonly rounds: number;
  /** Share of the work that is done, 0 to 1, by what the caller counts, such as a clock; left out: steps over rounds. */
  readonly share?: (step: number) => number;
}
