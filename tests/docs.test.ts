import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { kindsPages } from '../scripts/docs/kinds-page.ts';
import { lineDrawing } from '../scripts/docs/line-drawing.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import { buildSolid, type FaceDraft } from '../src/core/solid/build-solid.ts';

const docs = fileURLToPath(new URL('../docs/', import.meta.url));

test('the pages on kinds are those of the definitions (node scripts/run.mjs scripts/docs/write-docs.ts)', () => {
  const pages = kindsPages();
  const stale = [...pages].filter(
    ([path, text]) => !existsSync(docs + path) || readFileSync(docs + path, 'utf8') !== text,
  );
  expect(stale.map(([path]) => path)).toEqual([]);
  const drawings = readdirSync(`${docs}kinds`).map((name) => `kinds/${name}`);
  expect(drawings.filter((path) => !pages.has(path))).toEqual([]);
});

test('a drawing leaves out what lies behind a panel, and cuts lines where they come out from behind it', () => {
  const wall = (name: string, y: number, width: number, height: number): FaceDraft => {
    const points: Vec3[] = [
      [0, y, 0],
      [width, y, 0],
      [width, y, height],
      [0, y, height],
    ];
    return { id: name, title: name, part: 'wall', side: name, points };
  };
  const lines = (...walls: readonly FaceDraft[]): number =>
    [...lineDrawing(buildSolid(walls), 'Walls').matchAll(/M[^L]+L[^M"]+/g)].length;
  const front = wall('front', 0, 100, 100);
  expect(lines(front)).toBe(4);
  // The eye looks along (-1, 1, -1): the wall a little behind is covered from 10 to the left and 10 below.
  expect(lines(front, wall('behind', 10, 60, 60))).toBe(4);
  expect(lines(front, wall('beside', 10, 200, 60))).toBe(4 + 3);
  expect(lines(front, wall('above', 10, 60, 200))).toBe(4 + 3);
});
