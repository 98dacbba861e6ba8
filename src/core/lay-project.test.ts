import { describe, expect, test } from 'vitest';
import { layoutJob, piecesToLay } from './lay-project.ts';
import { checkLayout } from './layout/check-layout.ts';
import { type Production, produce } from './pipeline.ts';
import { resolveProject } from './project/read-project.ts';

type Loose = Readonly<Record<string, unknown>>;

const tower: Loose = {
  id: 'gate',
  kind: 'pyramid',
  copies: 2,
  shape: { width: 54, depth: 54, slant: 76 },
  layers: [{ as: 'cover', stock: 'slate' }],
};

function made(changes: Loose = {}, stock: Loose = {}): Production {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Gate',
    units: 'mm',
    stock: [{ id: 'slate', width: 210, height: 297, direction: 'two-way', ...stock }],
    roofs: [tower],
    ...changes,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return produce(read.value.project);
}

const [first] = piecesToLay(made().project, made().roofs);
const at = (changes: Loose = {}): Loose => ({
  roof: 'gate',
  layer: 0,
  piece: first?.id,
  stock: 'slate',
  x: 100,
  y: 150,
  locked: true,
  fingerprint: first?.fingerprint,
  ...changes,
});
const codes = ({ issues }: Production): string[] => issues.map(({ code, path }) => `${code} ${path}`);

describe('positions of a file', () => {
  test('hold, and the other pieces are laid round them', () => {
    const production = made({ positions: [at()] });
    expect(codes(production)).toEqual([]);
    const [sheet] = production.sheets;
    expect(sheet?.placements.find(({ copy, piece }) => copy === 0 && piece === 0)).toEqual({
      roof: 0,
      layer: 0,
      piece: 0,
      copy: 0,
      x: 100,
      y: 150,
      rotation: 0,
      locked: true,
    });
    const { job } = layoutJob(production.project, production.roofs);
    expect(job.fixed).toHaveLength(1);
    expect(checkLayout(job, { sheets: production.sheets, leftOut: [] })).toEqual([]);
    expect(production.sheets.flatMap(({ placements }) => placements)).toHaveLength(8);
  });

  test('that are locked stay when all else is laid anew', () => {
    const { project, roofs } = made({ positions: [at({ locked: false }), at({ copy: 1, x: 0 })] });
    const { job } = layoutJob(project, roofs, 'locked');
    expect(job.fixed.flatMap(({ placements }) => placements.map(({ copy }) => copy))).toEqual([1]);
  });

  test.each([
    ['a piece that is gone', at({ piece: 'north-west' }), 'position-no-piece'],
    ['a copy that is gone', at({ copy: 2 }), 'position-no-piece'],
    ['a piece that has changed', at({ fingerprint: '00000000' }), 'position-changed'],
    ['a paper that is gone', at({ stock: 'card' }), 'position-no-stock'],
    ['a sheet that is not owned', at({ sheet: 3 }), 'position-no-sheet'],
    ['a place off the sheet', at({ x: 199 }), 'position-off'],
    ['a turn that the paper does not allow', at({ rotation: 90 }), 'position-off'],
  ])('say %s with a warning, and the piece is laid anew', (_, position, code) => {
    const production = made({ positions: [position] }, { count: 3 });
    expect(codes(production)).toEqual([`${code} positions[0]`]);
    expect(production.issues[0]).toMatchObject({ level: 'warning' });
    expect(production.sheets.flatMap(({ placements }) => placements)).toHaveLength(8);
  });

  test('say a second place, and one on another piece', () => {
    expect(codes(made({ positions: [at(), at({ x: 0 })] }))).toEqual(['position-twice positions[1]']);
    expect(codes(made({ positions: [at(), at({ copy: 1, x: 110 })] }))).toEqual(['position-overlap positions[1]']);
    expect(codes(made({ positions: [at(), at({ copy: 1, x: 165 })] }, { gap: 30, width: 400 }))).toEqual([
      'position-overlap positions[1]',
    ]);
  });
});

describe('what is said of a layout', () => {
  const shell = { ...tower, copies: 1, layers: [{ as: 'shell', stock: 'slate', pieces: 'one-piece' }] };

  test('a shell that is too large names the fold to part it at', () => {
    const [issue] = made({ roofs: [shell] }, { width: 120, height: 120 }).issues.filter(
      ({ level }) => level === 'error',
    );
    expect(issue?.code).toBe('piece-too-large');
    expect(issue?.message).toMatch(/a sheet of slate has room for 120 mm by 120 mm, [\d.]+ mm too little\.$/);
    expect(issue?.remedy).toMatch(
      /^Cut it along hip-[a-z-]+, so that both parts fit, or take a larger sheet: \w+(?: on its side)? has room\.$/,
    );
  });

  test('panels that do not stand upright on a print with an up are noted', () => {
    const issue = made({ roofs: [shell] }, { direction: 'one-way', width: 400 }).issues.find(
      ({ code }) => code === 'print-askew',
    );
    // One panel of the four stands upright.
    expect(issue).toMatchObject({ level: 'note', path: 'roofs[0].layers[0]', numbers: { panelsCount: 3 } });
    expect(codes(made({}, { direction: 'one-way' }))).toEqual([]);
    expect(codes(made({ roofs: [shell] }, { direction: 'any', width: 400 })).join()).not.toContain('print-askew');
  });

  test('prices in two currencies cannot be compared', () => {
    const stock = [
      { id: 'slate', width: 210, height: 297, price: { amount: 1, currency: 'EUR' } },
      { id: 'card', width: 210, height: 297, price: { amount: 1, currency: 'USD' } },
    ];
    expect(codes(made({ stock, layout: { prefer: 'cheapest' } }))).toEqual(['prices-differ layout.prefer']);
    expect(codes(made({ stock }))).toEqual([]);
  });
});
