/** Steps that are done, remembered in this browser by the project's title. */
const keyOf = (title: string): string => `spirewright-done:${title}`;

/** Ids of the steps that are ticked; none where nothing can be remembered. */
export function readTicks(title: string): ReadonlySet<string> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(title)) ?? '[]');
    return new Set(Array.isArray(kept) ? kept.filter((id) => typeof id === 'string') : []);
  } catch {
    return new Set();
  }
}

export function writeTicks(title: string, ticks: ReadonlySet<string>): void {
  try {
    if (ticks.size === 0) localStorage.removeItem(keyOf(title));
    else localStorage.setItem(keyOf(title), JSON.stringify([...ticks]));
  } catch {
    // A browser may refuse to keep anything: then ticks last as long as the page.
  }
}
