import { describe, expect, test } from 'vitest';
import { produce } from '../../core/pipeline.ts';
import { readProject } from '../../core/project/read-project.ts';
import { writeReport } from './write-report.ts';

const file = {
  format: 'spirewright-project',
  version: 1,
  title: 'Tide bell',
  units: 'mm',
  stock: [
    { id: 'core', width: 210, height: 297, thickness: 2 },
    { id: 'print', width: 210, height: 297, thickness: 0.5 },
  ],
  roofs: [
    {
      id: 'bell',
      kind: 'pyramid',
      copies: 3,
      shape: { width: 60, depth: 60, rise: 40 },
      layers: [
        { as: 'board', stock: 'core', edges: 'mitred' },
        { as: 'cover', stock: 'print' },
      ],
    },
  ],
};

/** What another program reads: the written text alone. */
function readBack(): {
  readonly roofs: readonly [{ readonly solid: unknown; readonly layers: readonly [BoardLayer, BoardLayer] }];
  readonly materials: { readonly glue: number; readonly tape: number };
} {
  const read = readProject(JSON.stringify(file));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return JSON.parse(writeReport(produce(read.value.project)));
}

interface BoardLayer {
  readonly as: string;
  readonly thickness: number;
  readonly solid: { readonly vertices: readonly (readonly [number, number, number])[] };
  readonly pieces: readonly {
    readonly outline: readonly (readonly [number, number])[];
    readonly flaps: readonly unknown[];
    readonly folds: readonly unknown[];
    readonly board?: {
      readonly thickness: number;
      readonly edges: readonly {
        edge: string;
        cut: string;
        bevel: number;
        tilt: number;
        mitre: number | null;
        wider: string;
      }[];
    };
  }[];
}

describe('the report of a board core under a cover', () => {
  const report = readBack();
  const [board, cover] = report.roofs[0].layers;

  test('has the board on the shape, the cover half its thickness outside, both down to the eave', () => {
    expect([board.thickness, cover.thickness]).toEqual([2, 0.5]);
    expect(board.solid).toEqual(report.roofs[0].solid);
    // Slant 50 over a run of 30: 0.25 mm out the peak is 0.25 · 50 / 30 higher, the eave 0.25 · 50 / 40 farther out.
    expect(Math.max(...cover.solid.vertices.map((v) => v[2]))).toBeCloseTo(40 + 0.25 * (50 / 30), 6);
    expect(Math.max(...cover.solid.vertices.map((v) => v[0]))).toBeCloseTo(30 + 0.25 * (50 / 40), 6);
    expect(Math.min(...cover.solid.vertices.map((v) => v[2]))).toBe(0);
  });

  test('says of every edge of board how it is cut, and of paper nothing of the kind', () => {
    expect(cover.pieces.every((piece) => piece.board === undefined)).toBe(true);
    for (const { board: cut, flaps, folds } of board.pieces) {
      expect([flaps, folds]).toEqual([[], []]);
      expect(cut?.thickness).toBe(2);
      const [eave, ...hips] = [...(cut?.edges ?? [])].sort((a, b) => (a.edge < b.edge ? -1 : 1));
      // The pitch is atan(40 / 30), 53.1301°: the eave is cut at 90° less that. The cosine between two neighbours is 0.36.
      expect(eave).toMatchObject({ cut: 'mitred', mitre: null, wider: 'outside' });
      expect(eave?.bevel).toBeCloseTo(36.869898, 5);
      expect(hips).toHaveLength(2);
      for (const { bevel, tilt, mitre } of hips) {
        expect(bevel).toBeCloseTo((Math.acos(0.36) * 90) / Math.PI, 6);
        expect(tilt).toBe(bevel);
        expect(mitre).toBeCloseTo((Math.atan(30 / 50) * 180) / Math.PI, 6);
      }
    }
  });

  test('counts the glued seams of all copies', () => {
    expect(report.materials.glue).toBeCloseTo(3 * 4 * Math.hypot(30, 30, 40), 6);
    expect(report.materials.tape).toBe(0);
  });
});
