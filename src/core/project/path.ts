export type PathPart = string | number;

/** Where in the file, as `roofs[0].shape.rise`; keys that are no plain words in brackets and quotes. */
export function formatPath(parts: readonly PathPart[]): string {
  return parts.reduce<string>((path, part) => {
    if (typeof part === 'number') return `${path}[${part}]`;
    if (!/^[\w-]+$/.test(part)) return `${path}[${JSON.stringify(part)}]`;
    return path === '' ? part : `${path}.${part}`;
  }, '');
}

export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export function valueAt(value: unknown, parts: readonly PathPart[]): unknown {
  return parts.reduce<unknown>((inner, part) => {
    if (Array.isArray(inner)) return inner[Number(part)];
    return isRecord(inner) && Object.hasOwn(inner, part) ? inner[part] : undefined;
  }, value);
}
