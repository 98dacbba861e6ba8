/** Whole numbers that come out the lowest first. A binary heap. */
export interface RankedQueue {
  push(rank: number): void;
  /** Null when nothing is left. */
  pop(): number | null;
}

export function rankedQueue(): RankedQueue {
  const ranks: number[] = [];
  return {
    push: (rank) => {
      let i = ranks.length;
      for (let up = (i - 1) >> 1; i > 0 && (ranks[up] as number) > rank; up = (i - 1) >> 1) {
        ranks[i] = ranks[up] as number;
        i = up;
      }
      ranks[i] = rank;
    },
    pop: () => {
      const lowest = ranks[0];
      const last = ranks.pop();
      if (lowest === undefined || last === undefined) return null;
      const count = ranks.length;
      if (count === 0) return lowest;
      // The last goes down from the top to where it is lower than what lies below it.
      let i = 0;
      for (let child = 1; child < count; child = 2 * i + 1) {
        if (child + 1 < count && (ranks[child + 1] as number) < (ranks[child] as number)) child++;
        if ((ranks[child] as number) >= last) break;
        ranks[i] = ranks[child] as number;
        i = child;
      }
      ranks[i] = last;
      return lowest;
    },
  };
}
