import type { Vec2 } from '../../core/geometry/vector.ts';

/** A path as the file has it, in points of 1/72 in, y up. */
export interface RawPath {
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  readonly width: number;
  readonly dash: readonly number[];
}

export const latin1 = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
};

/**
 * The drawn paths of each page, read from the bytes of an uncompressed PDF: only the operators m, l, h, S, w and d,
 * with the numbers as they stand there.
 */
export const rawPages = (bytes: Uint8Array): readonly (readonly RawPath[])[] => {
  const text = latin1(bytes);
  const contents = [...text.matchAll(/\/Type \/Page\n[\s\S]*?\/Contents (\d+) 0 R/g)].map((match) => match[1]);
  return contents.map((id) => {
    const object = new RegExp(`(?:^|\\n)${id} 0 obj\\n<<[\\s\\S]*?>>\\nstream\\n([\\s\\S]*?)\\nendstream`).exec(text);
    if (object?.[1] === undefined) throw new Error(`no content stream ${id}`);
    return readPaths(object[1]);
  });
};

const readPaths = (content: string): readonly RawPath[] => {
  const paths: RawPath[] = [];
  let points: Vec2[] = [];
  let closed = false;
  let width = 0;
  let dash: readonly number[] = [];
  for (const row of content.split('\n')) {
    const words = row.trim().split(/\s+/);
    const operator = words.at(-1);
    const [a = 0, b = 0] = words.map(Number);
    if (operator === 'm') {
      points = [[a, b]];
      closed = false;
    } else if (operator === 'l') points.push([a, b]);
    else if (operator === 'h') closed = true;
    else if (operator === 'w') width = a;
    else if (operator === 'd') dash = (/\[(.*)\]/.exec(row)?.[1] ?? '').split(/\s+/).filter(Boolean).map(Number);
    else if (operator === 'S') paths.push({ points, closed, width, dash });
  }
  return paths;
};
