import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkLayout } from './layout/check-layout.ts';
import { checkNet } from './net/check-net.ts';
import { piecesToLay, produce } from './pipeline.ts';
import { readProject } from './project/read-project.ts';
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
    expect(checkLayout(piecesToLay(project, made.roofs), made.sheets, project.stock, 0)).toEqual([]);
  });

  test('is plain data and the same twice', () => {
    expect(JSON.parse(JSON.stringify(made))).toEqual(made);
    expect(JSON.stringify(produce(project))).toBe(JSON.stringify(made));
  });
});
