/** Numbers that come out by their rank, the lowest first; of equal ranks the lowest number. A binary heap. */
export interface RankedQueue {
  push(rank: number, item: number): void;
  /** Null when nothing is left. */
  pop(): number | null;
}

export function rankedQueue(): RankedQueue {
  const ranks: number[] = [];
  const items: number[] = [];
  const isBefore = (i: number, j: number): boolean => {
    const [a, b] = [ranks[i] as number, ranks[j] as number];
    return a === b ? (items[i] as number) < (items[j] as number) : a < b;
  };
  const swap = (i: number, j: number): void => {
    [ranks[i], ranks[j]] = [ranks[j] as number, ranks[i] as number];
    [items[i], items[j]] = [items[j] as number, items[i] as number];
  };
  return {
    push: (rank, item) => {
      ranks.push(rank);
      let i = items.push(item) - 1;
      for (let up = (i - 1) >> 1; i > 0 && isBefore(i, up); up = (i - 1) >> 1) {
        swap(i, up);
        i = up;
      }
    },
    pop: () => {
      if (items.length === 0) return null;
      swap(0, items.length - 1);
      ranks.pop();
      const item = items.pop() as number;
      for (let i = 0; ; ) {
        let least = i;
        for (const child of [2 * i + 1, 2 * i + 2]) if (child < items.length && isBefore(child, least)) least = child;
        if (least === i) return item;
        swap(i, least);
        i = least;
      }
    },
  };
}
