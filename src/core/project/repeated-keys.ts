import { formatPath, type PathPart } from './path.ts';

interface Level {
  /** Keys seen so far; null in a list. */
  readonly keys: Set<string> | null;
  /** Where in the level the reader is. */
  at: PathPart;
}

/**
 * Paths of keys that a JSON text gives twice in one group: reading it would silently keep only the last.
 * The text must be valid JSON.
 */
export function repeatedKeys(text: string): readonly string[] {
  const repeated: string[] = [];
  const levels: Level[] = [];
  let lastText = '';
  for (const [token] of text.matchAll(/"(?:[^"\\]|\\.)*"|[{}[\]:,]/g)) {
    const level = levels[levels.length - 1];
    if (token === '{') levels.push({ keys: new Set(), at: '' });
    else if (token === '[') levels.push({ keys: null, at: 0 });
    else if (token === '}' || token === ']') levels.pop();
    else if (token === ',' && level && typeof level.at === 'number') level.at++;
    else if (token === ':' && level?.keys) {
      const key = JSON.parse(lastText) as string;
      level.at = key;
      if (level.keys.has(key)) repeated.push(formatPath(levels.map((each) => each.at)));
      level.keys.add(key);
    } else lastText = token;
  }
  return repeated;
}
