/** A binary heap: the item with the lowest key comes out first; among equal keys the one put in first. */
export interface Heap<T> {
  readonly push: (key: number, item: T) => void;
  readonly pop: () => { readonly key: number; readonly item: T } | undefined;
  readonly peek: () => number | undefined;
}

interface Entry<T> {
  readonly key: number;
  readonly order: number;
  readonly item: T;
}

export function makeHeap<T>(): Heap<T> {
  const entries: Entry<T>[] = [];
  let count = 0;
  const isBefore = (i: number, j: number): boolean => {
    const a = entries[i] as Entry<T>;
    const b = entries[j] as Entry<T>;
    return a.key < b.key || (a.key === b.key && a.order < b.order);
  };
  const swap = (i: number, j: number): void => {
    [entries[i], entries[j]] = [entries[j] as Entry<T>, entries[i] as Entry<T>];
  };
  return {
    push: (key, item) => {
      let i = entries.push({ key, order: count++, item }) - 1;
      while (i > 0) {
        const parent = (i - 1) >> 1;
        if (!isBefore(i, parent)) break;
        swap(i, parent);
        i = parent;
      }
    },
    pop: () => {
      const [top] = entries;
      const last = entries.pop();
      if (!top || !last) return undefined;
      if (entries.length > 0) {
        entries[0] = last;
        let i = 0;
        for (;;) {
          const [left, right] = [2 * i + 1, 2 * i + 2];
          let least = i;
          if (left < entries.length && isBefore(left, least)) least = left;
          if (right < entries.length && isBefore(right, least)) least = right;
          if (least === i) break;
          swap(i, least);
          i = least;
        }
      }
      return top;
    },
    peek: () => entries[0]?.key,
  };
}
