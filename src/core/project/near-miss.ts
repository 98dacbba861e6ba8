/** The word a typing slip was meant to be: at most two letters (one in short words) changed, missing or too many. */
export function nearMiss(found: string, allowed: readonly string[]): string | undefined {
  const typed = found.toLowerCase();
  const ranked = allowed
    .map((word) => ({ word, slips: slipsBetween(typed, word.toLowerCase()) }))
    .filter(({ word, slips }) => slips <= (Math.min(word.length, typed.length) > 4 ? 2 : 1))
    .sort((a, b) => a.slips - b.slips);
  return ranked[0]?.word;
}

/** Fewest single letters to change, take out or put in; two neighbours swapped count as one. */
function slipsBetween(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (rows[i - 1]?.[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = isSwap ? (rows[i - 2]?.[j - 2] ?? 0) + 1 : change;
      row.push(Math.min(change, swap, (rows[i - 1]?.[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
}
