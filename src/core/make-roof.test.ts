import { expect, it } from 'vitest';
import { makeRoof } from './make-roof.ts';
import { resolveProject } from './project/read-project.ts';

const restOf = (layers: readonly object[]): number | undefined => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Rest',
    units: 'mm',
    stock: [
      { id: 'board', width: 300, height: 300, thickness: 2 },
      { id: 'paper', width: 300, height: 300, thickness: 0.1 },
    ],
    roofs: [
      {
        id: 'one',
        kind: 'pyramid',
        shape: { width: 60, depth: 60, rise: 45 },
        body: { width: 50, depth: 50, height: 80 },
        layers,
      },
    ],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { project } = read.value;
  const [spec] = project.roofs;
  return spec && makeRoof(spec, project, 0).made?.fit.rest;
};

it('a roof rests on its underside: of board its inside, of paper over a core what it is glued to', () => {
  // Over the wall the outside lies 5 mm in from the eave: 7.5 mm high. Board of 2 mm reaches 2 / cos(pitch) lower, tan = 1.5.
  const lower = 2 * Math.hypot(1, 1.5);
  const board = { as: 'board', stock: 'board' };
  const cover = { as: 'cover', stock: 'paper' };
  expect(restOf([cover])).toBeCloseTo(80 - 7.5, 9);
  expect(restOf([board])).toBeCloseTo(80 - 7.5 + lower, 9);
  expect(restOf([board, cover])).toBeCloseTo(80 - 7.5 + lower, 9);
});
