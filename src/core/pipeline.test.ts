import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { layoutJob } from './lay-project.ts';
import { checkLayout } from './layout/check-layout.ts';
import type { MadeRoof } from './make-roof.ts';
import { checkNet } from './net/check-net.ts';
import { produce } from './pipeline.ts';
import { readProject, resolveProject } from './project/read-project.ts';
import { checkSolid } from './solid/check-solid.ts';

const samples = readdirSync('shared/samples').filter((name) => name.endsWith('.roofs.json'));

describe.each(samples)('the sample %s', (name) => {
  const read = readProject(readFileSync(`shared/samples/${name}`, 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { project } = read.value;
  const made = produce(project);

  test('is made without an error, and every stage passes its check', () => {
    expect(made.issues.filter((issue) => issue.level === 'error')).toEqual([]);
    for (const roof of made.roofs) {
      expect(roof.made).not.toBeNull();
      for (const { solid, net, spec } of roof.made?.layers ?? []) {
        expect(checkSolid(solid)).toEqual([]);
        expect(checkNet(solid, net, spec.flaps)).toEqual([]);
      }
    }
    const { job } = layoutJob(project, made.roofs);
    expect(checkLayout(job, { sheets: made.sheets, leftOut: [] })).toEqual([]);
  });

  test('is plain data and the same twice', () => {
    expect(JSON.parse(JSON.stringify(made))).toEqual(made);
    expect(JSON.stringify(produce(project))).toBe(JSON.stringify(made));
  });
});

describe('a fascia', () => {
  const made = (roof: Readonly<Record<string, unknown>>, scale: number | string = 1) => {
    const read = resolveProject({
      format: 'spirewright-project',
      version: 1,
      title: 'Eaves',
      units: 'mm',
      scale,
      stock: [{ id: 'plain', width: 600, height: 600, direction: 'any' }],
      roofs: [{ id: 'one', layers: [{ as: 'cover', stock: 'plain' }], ...roof }],
    });
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    return produce(read.value.project).roofs[0] as MadeRoof;
  };
  const hip = { kind: 'hip', shape: { pitch: 40 }, body: { width: 90, depth: 60, height: 50 }, overhang: 6 };

  test('hangs from the eaves, folded to its slopes, and changes neither rest nor overhang', () => {
    const [bare, hung] = [made(hip), made({ ...hip, fascia: 4 })];
    expect(hung.made?.fit).toMatchObject({ rest: bare.made?.fit.rest, overhang: bare.made?.fit.overhang });
    const [layer] = hung.made?.layers ?? [];
    expect(layer?.net.pieces.map(({ panels, folds }) => [panels.length, folds.length])).toEqual(
      Array.from({ length: 4 }, () => [2, 1]),
    );
    expect(Math.min(...(hung.made?.solid.vertices ?? []).map((v) => v[2]))).toBeCloseTo(-4, 12);
  });

  test('is of model size', () => {
    const big = { kind: 'hip', shape: { width: 9000, depth: 6000, rise: 2500 }, fascia: 400 };
    expect(made(big, '1:100').spec.fascia).toBeCloseTo(4, 12);
  });

  test('says when there is no eave to hang from, or the table is in its way', () => {
    const flush = { kind: 'flat', shape: { width: 90, depth: 60 }, fascia: 4 };
    expect(made(flush).issues.map(({ code, path }) => `${code} ${path}`)).toContain('no-fascia roofs[0].fascia');
    const low = { ...hip, body: { ...hip.body, height: 3 }, fascia: 30 };
    expect(made(low).issues.map(({ code }) => code)).toContain('roof-below-table');
  });
});
