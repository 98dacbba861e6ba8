/**
 * Issues: what a stage found wrong, or worth saying. An expected failure is a value, never a throw.
 */

export type IssueLevel = 'error' | 'warning' | 'note';

/** Parts of the roof that an issue speaks of, so that they can be shown: ids of a solid's edges and faces. */
export interface Place {
  /** Index of the layer whose solid has them; missing: the roof's own solid. */
  readonly layer?: number;
  readonly edges?: readonly string[];
  readonly faces?: readonly string[];
}

export interface Issue {
  readonly level: IssueLevel;
  /** Stable, kebab-case: what tests and other programs look at. */
  readonly code: string;
  /** Where in the project file, as `roofs[0].shape.rise`; empty for the whole. */
  readonly path: string;
  /** The figures behind the sentence: mm, degrees, plain numbers. */
  readonly numbers?: Readonly<Record<string, number>>;
  /** What was found and what is allowed. */
  readonly message: string;
  /** What the maker can do. */
  readonly remedy?: string;
  /** Where on the roof; missing where no part of it is meant. */
  readonly place?: Place;
}

export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly issues: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };

export const succeed = <T>(value: T, issues: readonly Issue[] = []): Result<T> => ({ ok: true, value, issues });
export const fail = (...issues: readonly Issue[]): { readonly ok: false; readonly issues: readonly Issue[] } => ({
  ok: false,
  issues,
});
export const hasError = (issues: readonly Issue[]): boolean => issues.some((issue) => issue.level === 'error');

/**
 * Puts the figures into an issue's sentences: `{found}` becomes `numbers.found` written as a length in the maker's units,
 * `{pitchDeg}` an angle, `{sidesCount}` a plain count.
 */
export function spell(issue: Issue, length: (mm: number) => string): Issue {
  const fill = (text: string): string =>
    text.replace(/\{(\w+)\}/g, (whole, name: string) => {
      const value = issue.numbers?.[name];
      if (value === undefined) return whole;
      if (name.endsWith('Deg')) return `${Number(value.toFixed(2))}°`;
      return name.endsWith('Count') ? String(value) : length(value);
    });
  return {
    ...issue,
    message: fill(issue.message),
    ...(issue.remedy === undefined ? {} : { remedy: fill(issue.remedy) }),
  };
}
