import { describe, expect, it } from 'vitest';
import { layRoofs, type Production, produce } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { blankProject } from './blank-project.ts';
import { duplicateRoof } from './file-edits.ts';
import { type JsonObject, setAt } from './file-path.ts';
import { createReader, type Reading } from './reading.ts';

const good = duplicateRoof(blankProject('in'), 0);
const withShape = (shape: JsonObject): JsonObject => setAt(good, ['roofs', 0, 'shape'], shape) as JsonObject;

describe('what the bench shows of a file', () => {
  it('keeps the roof that stood while one cannot be made, and goes on with the others', () => {
    const read = createReader(resolveProject, produce, layRoofs);
    const before = read(good);
    const short = setAt(withShape({ slant: '1/4in' }), ['roofs', 1, 'shape', 'rise'], '5in') as JsonObject;
    const after = read(short);
    expect(before.isCurrent).toBe(true);
    expect(after.isCurrent).toBe(false);
    expect(after.issues.map((issue) => issue.path)).toContain('roofs[0].shape.slant');
    expect(after.shown?.roofs[0]?.made).toBe(before.shown?.roofs[0]?.made);
    const heights = after.shown?.roofs[1]?.made?.solid.vertices.map((v) => v[2]) ?? [];
    expect(Math.max(...heights)).toBeCloseTo(5 * MM_PER_INCH, 9);
  });

  it('keeps everything while the file cannot be read', () => {
    const read = createReader(resolveProject, produce, layRoofs);
    const before = read(good);
    const after = read(withShape({ rise: 'tall' }));
    expect(after.shown).toBe(before.shown);
    expect(after.issues.length).toBeGreaterThan(0);
    expect(read(good)).toBe(before);
  });

  it('makes no roof anew for pieces that are put elsewhere, and shows what the whole file shows', () => {
    const read = createReader(resolveProject, produce, layRoofs);
    const before = read(good);
    const { roof, piece, stock } = firstPosition(before);
    const moved: JsonObject = { ...good, positions: [{ roof, layer: 0, piece, stock, x: '1in', y: '1in' }] };
    const after = read(moved);
    expect(after.shown?.roofs[0]).toBe(before.shown?.roofs[0]);
    expect(after.shown?.sheets[0]?.placements[0]?.x).toBe(MM_PER_INCH);
    expect(after).toEqual(createReader(resolveProject, produce, layRoofs)(moved));
    const thicker = setAt(moved, ['stock', 0, 'thickness'], '1mm') as JsonObject;
    expect(read(thicker).shown?.roofs[0]).not.toBe(before.shown?.roofs[0]);
  });
});

const firstPosition = ({ shown }: Reading) => {
  const { project, roofs } = shown as Production;
  return {
    roof: project.roofs[0]?.id ?? '',
    piece: roofs[0]?.made?.layers[0]?.net.pieces[0]?.id ?? '',
    stock: project.stock[0]?.id ?? '',
  };
};
