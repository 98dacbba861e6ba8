import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { a4, pyramidOn } from '../testing/pyramid.ts';
import { produceSample, sampleNames } from '../testing/samples.ts';
import { formatNumber, type Json, writeJson } from './write-json.ts';
import { writeReport } from './write-report.ts';

const production = pyramidOn(a4);
const text = writeReport(production);
const report = JSON.parse(text);

describe('numbers', () => {
  it('are plain decimals for every finite value', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const written = formatNumber(value);
        expect(written).toMatch(/^-?\d+(\.\d*[1-9])?$/);
        expect(written).not.toBe('-0');
        expect(Math.abs(Number(written) - value)).toBeLessThanOrEqual(5e-10 + Math.abs(value) * 1e-15);
      }),
    );
  });

  it.each([
    [-0, '0'],
    [1e-12, '0'],
    [-4e-10, '0'],
    [100, '100'],
    [1 / 3, '0.333333333'],
    [1e21, '1000000000000000000000'],
  ])('%d is written %s', (value, written) => {
    expect(formatNumber(value)).toBe(written);
  });

  it('that are none are refused', () => {
    expect(() => formatNumber(Number.NaN)).toThrow(RangeError);
    expect(() => formatNumber(Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});

describe('JSON text', () => {
  it('reads back as it was', () => {
    const { value } = fc.letrec<{ value: Json }>((tie) => ({
      value: fc.oneof(
        fc.constantFrom(null, true, false),
        fc.integer(),
        fc.string({ unit: 'grapheme' }),
        fc.array(tie('value'), { maxLength: 4 }),
        fc.dictionary(fc.stringMatching(/^[a-z]{1,6}$/), tie('value'), { maxKeys: 4, noNullPrototype: true }),
      ),
    }));
    fc.assert(
      fc.property(value, (given) => {
        expect(JSON.parse(writeJson(given))).toEqual(given);
      }),
    );
  });

  it('keeps a point on one line', () => {
    expect(writeJson({ polygon: [[0, 1.5]] })).toBe('{\n  "polygon": [\n    [0, 1.5]\n  ]\n}');
  });
});

describe('the report', () => {
  it('is the same text twice', () => {
    expect(writeReport(pyramidOn(a4))).toBe(text);
  });

  it('has the public keys in their order', () => {
    const [roof] = report.roofs;
    const [layer] = roof.layers;
    const keysOf = {
      report: Object.keys(report),
      roof: Object.keys(roof),
      solid: Object.keys(layer.solid),
      face: Object.keys(roof.solid.faces[0]),
      edge: Object.keys(roof.solid.edges[0]),
      layer: Object.keys(layer),
      piece: Object.keys(layer.pieces[2]),
      panel: Object.keys(layer.pieces[0].panels[0]),
      flap: Object.keys(layer.pieces[1].flaps[0]),
      fit: Object.keys(roof.fit),
      sheet: Object.keys(report.sheets[0]),
      placement: Object.keys(report.sheets[0].placements[0]),
      materials: Object.keys(report.materials),
      byStock: Object.keys(report.materials.byStock[0]),
      issue: Object.keys(report.issues[0]),
    };
    expect(keysOf).toEqual({
      report: ['format', 'version', 'roofs', 'sheets', 'materials', 'issues'],
      roof: ['id', 'title', 'kind', 'copies', 'solid', 'layers', 'fit'],
      solid: ['vertices', 'faces', 'edges'],
      face: ['id', 'title', 'loop'],
      edge: ['id', 'ends', 'faces', 'role', 'length', 'dihedral'],
      layer: ['as', 'stock', 'thickness', 'solid', 'pieces', 'closing'],
      piece: ['id', 'same', 'outline', 'panels', 'flaps', 'folds'],
      panel: ['face', 'polygon'],
      flap: ['edge', 'from', 'to', 'polygon'],
      fit: [
        'overhang',
        'rest',
        'eaves',
        'neighbours',
        'seat',
        'seamMismatch',
        'peakGap',
        'seams',
        'peaks',
        'handCut',
        'issues',
      ],
      sheet: ['stock', 'index', 'width', 'height', 'used', 'placements', 'rests'],
      placement: ['roof', 'layer', 'piece', 'copy', 'x', 'y', 'rotation'],
      materials: ['byStock', 'tape', 'cut', 'score', 'glue'],
      byStock: ['stock', 'sheets', 'area', 'used'],
      issue: ['level', 'code', 'path', 'numbers', 'message'],
    });
  });

  it('gives angles in degrees and names faces by id', () => {
    const hip = report.roofs[0].solid.edges[4];
    // Two sides of a square pyramid of pitch p: cos of the inside angle = -cos² p, here cos p = 20 / 50.
    expect(hip.dihedral).toBeCloseTo((Math.acos(-0.16) * 180) / Math.PI, 8);
    expect(hip.faces).toEqual(['south', 'east']);
    expect(report.roofs[0].solid.edges[0].dihedral).toBeNull();
    expect(report.sheets[0].placements.map((placement: { rotation: number }) => placement.rotation)).toEqual([0, 90]);
  });

  it('holds every point of the net', () => {
    const { pieces } = production.roofs[0]?.made?.layers[0]?.net ?? { pieces: [] };
    const written = report.roofs[0].layers[0].pieces;
    expect(written).toHaveLength(pieces.length);
    pieces.forEach((piece, i) => {
      piece.outline.forEach(([x, y], k) => {
        expect(written[i].outline[k][0]).toBeCloseTo(x, 9);
        expect(written[i].outline[k][1]).toBeCloseTo(y, 9);
      });
    });
  });

  it('names the issues of a roof that could not be made', () => {
    const issue = { level: 'error', code: 'rise-too-low', path: 'roofs[0].shape.rise', message: 'No.' } as const;
    const { spec } = production.roofs[0] as (typeof production.roofs)[number];
    const failed = JSON.parse(
      writeReport({ ...production, sheets: [], roofs: [{ spec, made: null, issues: [issue] }] }),
    );
    expect(failed.roofs[0]).toMatchObject({ solid: null, layers: [], fit: { overhang: null, issues: [issue] } });
  });
});

describe.each(sampleNames)('the report of %s', (name) => {
  const made = produceSample(name);
  const written = writeReport(made);
  const read = JSON.parse(written);

  it('reads back, and is written back, as it was', () => {
    expect(`${writeJson(read)}\n`).toBe(written);
  });

  it('says of every roof what the production says', () => {
    made.roofs.forEach((roof, i) => {
      const { solid, layers, fit, copies } = read.roofs[i];
      expect(copies).toBe(roof.spec.copies);
      expect(fit.overhang?.min ?? null).toEqual(
        roof.made?.fit.overhang ? expect.closeTo(roof.made.fit.overhang.min, 8) : null,
      );
      expect(solid.vertices).toHaveLength(roof.made?.solid.vertices.length ?? 0);
      const faces = new Set(solid.faces.map((face: { id: string }) => face.id));
      for (const edge of solid.edges) {
        expect(edge.dihedral === null).toBe(edge.faces.length === 1);
        for (const face of edge.faces) expect(faces).toContain(face);
        const [a, b] = edge.ends.map((vertex: number) => solid.vertices[vertex]);
        expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeCloseTo(edge.length, 7);
      }
      for (const { pieces } of layers) {
        for (const piece of pieces) {
          for (const { face, polygon } of piece.panels) {
            const { loop } = solid.faces.find(({ id }: { id: string }) => id === face);
            expect(polygon).toHaveLength(loop.length);
          }
          for (const fold of piece.folds) {
            const { dihedral } = solid.edges.find(({ id }: { id: string }) => id === fold.edge);
            expect(fold.angle).toBeCloseTo(Math.abs(180 - dihedral), 7);
          }
          for (const flap of piece.flaps) expect(faces).toContain(flap.from);
        }
      }
    });
  });

  it('places every copy of every piece once, by names that the report holds', () => {
    const placed = read.sheets.flatMap(
      (sheet: { placements: { roof: string; layer: number; piece: string; copy: number }[] }) =>
        sheet.placements.map(({ roof, layer, piece, copy }) => `${roof} ${layer} ${piece} ${copy}`),
    );
    const wanted = made.roofs.flatMap((roof) =>
      Array.from({ length: roof.spec.copies }, (_, copy) => copy).flatMap((copy) =>
        (roof.made?.layers ?? []).flatMap(({ net }, l) =>
          net.pieces.map(({ id }) => `${roof.spec.id} ${l} ${id} ${copy}`),
        ),
      ),
    );
    expect([...placed].sort()).toEqual([...wanted].sort());
  });
});

describe('the report of strips, hems and a seat', () => {
  const quay = produceSample('working-quay');
  const read = JSON.parse(writeReport(quay));
  const layersOf = (
    id: string,
  ): { as: string; closing: unknown; foot: number; depth: number; pieces: ReportPiece[] }[] =>
    read.roofs.find((roof: { id: string }) => roof.id === id).layers;

  it('says which edge a strip joins, with two halves and one fold', () => {
    const strips = layersOf('ferry-cafe').flatMap(({ pieces }) => pieces.filter(({ strip }) => strip !== undefined));
    expect(strips.length).toBeGreaterThan(5);
    for (const { strip, panels, flaps, folds } of strips) {
      expect(panels).toEqual([]);
      expect(flaps.map(({ edge }) => edge)).toEqual([strip, strip]);
      expect(folds.map(({ edge }) => edge)).toEqual([strip]);
    }
  });

  it('lists hems with the face they hang on', () => {
    const hems = layersOf('sail-loft')[0]?.pieces.flatMap((piece) => piece.hems ?? []) ?? [];
    expect(hems.map(({ edge }) => edge).sort()).toEqual([...new Set(hems.map(({ edge }) => edge))].sort());
    // Under a fascia a hem is turned square.
    for (const { from, angle } of hems) expect([from.endsWith('fascia'), angle]).toEqual([true, expect.closeTo(90, 9)]);
  });

  it('lists a seat after the layers of the file, where placements find it', () => {
    const [cover, seat] = layersOf('sail-loft');
    expect([cover?.as, seat?.as]).toEqual(['cover', 'seat']);
    expect(seat?.depth).toBeGreaterThan(0);
    const placed = read.sheets.flatMap((sheet: { placements: { roof: string; layer: number; piece: string }[] }) =>
      sheet.placements.filter(({ roof, layer }) => roof === 'sail-loft' && layer === 1).map(({ piece }) => piece),
    );
    expect(placed).toEqual(seat?.pieces.map(({ id }) => id));
  });

  it('says what closes each layer', () => {
    for (const { closing, as } of layersOf('net-mender')) {
      expect(as === 'seat' ? null : closing).toMatchObject({ reachable: true });
    }
  });
});

interface ReportPiece {
  readonly id: string;
  readonly strip?: string;
  readonly panels: readonly unknown[];
  readonly flaps: readonly { readonly edge: string }[];
  readonly hems?: readonly { readonly edge: string; readonly from: string; readonly angle: number }[];
  readonly folds: readonly { readonly edge: string }[];
}
