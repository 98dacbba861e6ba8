import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../tests/laws/runs.ts';
import { apply2 } from '../../core/geometry/rigid2.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { placementMotion } from '../../core/layout/placed.ts';
import { makeRoof } from '../../core/make-roof.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { finishLayer, onSheet } from './finish.ts';
import { buildNetParts } from './net-parts.ts';
import { printLook } from './prints.ts';

describe('finishLayer', () => {
  const layer = { spec: { as: 'cover', stock: ['slate'] } } as unknown as Parameters<typeof finishLayer>[1];
  const stock = [
    { id: 'slate', name: 'Slate print' },
    { id: 'rest', name: 'Rest', print: { pattern: 'checks', repeat: 10 } },
  ] as unknown as Parameters<typeof finishLayer>[3];
  const placement = { roof: 1, layer: 0, piece: 2, copy: 0, x: 36, y: 9, rotation: Math.PI / 2 };
  const sheet = { stock: 0, index: 0, width: 300, height: 300, used: 0.1, placements: [placement] };
  const first = { roof: 1, layer: 0, copy: 0 };

  it('wears the part of the sheet a piece is cut from, in tiles of the print', () => {
    const { looks, mapping } = finishLayer(first, layer, [sheet], stock);
    expect(looks).toEqual([printLook('slates')]);
    const [u, v] = mapping(2, [18, 0]);
    expect(u).toBeCloseTo(36 / 72, 9);
    expect(v).toBeCloseTo((9 + 18) / 72, 9);
  });

  it('shows a piece that is not laid from its own corner', () => {
    expect(finishLayer({ ...first, roof: 0 }, layer, [sheet], stock).mapping(2, [36, 72])).toEqual([0.5, 1]);
    expect(finishLayer({ ...first, copy: 1 }, layer, [sheet], stock).mapping(2, [36, 72])).toEqual([0.5, 1]);
  });

  it('wears several papers, each piece its own', () => {
    const other = { ...sheet, stock: 1, placements: [{ ...placement, piece: 3 }] };
    const { looks, lookAt, mapping } = finishLayer(first, layer, [sheet, other], stock);
    expect([2, 3].map((piece) => looks[lookAt(piece)]?.pattern)).toEqual(['slates', 'checks']);
    expect(mapping(3, [0, 24])[0]).toBeCloseTo((36 - 24) / 60, 9);
  });

  it('turns counter-clockwise', () => {
    const [x, y] = onSheet(placement, [10, 0]);
    expect([x, y].map((n) => Math.round(n * 1e9) / 1e9)).toEqual([36, 19]);
  });
});

describe('a roof that is dressed', () => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Light tower',
    units: 'mm',
    stock: [{ id: 'checked', width: 500, height: 500, print: { pattern: 'checks', repeat: 9 } }],
    roofs: [
      {
        id: 'tower',
        kind: 'pyramid',
        shape: { width: 50, depth: 40, rise: 60 },
        layers: [{ as: 'cover', stock: 'checked' }],
      },
      { id: 'lamp', kind: 'cone', shape: { diameter: 40, rise: 30 }, layers: [{ as: 'cover', stock: 'checked' }] },
    ],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { project } = read.value;
  const layers = project.roofs.map((spec, roof) => {
    const layer = makeRoof(spec, project, roof).made?.layers[0];
    if (!layer) throw new Error('no layer');
    return layer;
  });
  const far = fc.double({ min: 0, max: 400, noNaN: true });
  const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

  it('wears at every point the very point of the sheet that comes to lie there, upside down where it is laid so', () => {
    fc.assert(
      fc.property(fc.nat(1), fc.array(fc.tuple(far, far, angle), { minLength: 12, maxLength: 12 }), (roof, spots) => {
        const layer = layers[roof] as (typeof layers)[number];
        const { net, solid } = layer;
        const placements = net.pieces.map((_, piece) => {
          const [x, y, rotation] = spots[piece % 12] as (typeof spots)[number];
          return { roof, layer: 0, piece, copy: 0, x, y, rotation };
        });
        const sheet = { stock: 0, index: 0, width: 500, height: 500, used: 0.5, placements };
        const finish = finishLayer({ roof, layer: 0, copy: 0 }, layer, [sheet], project.stock);
        const { prints } = buildNetParts(solid, net, { thickness: 0.3, line: 0.5, finish });
        const [part] = prints;
        const { tile } = finish.looks[0] as (typeof finish.looks)[number];
        const pieceOf = net.pieces.flatMap((piece, i) => [...piece.panels, ...piece.flaps, ...piece.hems].map(() => i));
        expect(part?.owners.length).toBeGreaterThan(8);
        part?.owners.forEach((owner, i) => {
          const flat: Vec2 = [part.positions[i * 3] as number, part.positions[i * 3 + 1] as number];
          const placement = placements[pieceOf[owner] as number] as (typeof placements)[number];
          const [x, y] = apply2(placementMotion(placement), flat);
          expect((part.uvs[i * 2] as number) * tile).toBeCloseTo(x, 6);
          expect((part.uvs[i * 2 + 1] as number) * tile).toBeCloseTo(y, 6);
        });
      }),
      { numRuns: runs(10) },
    );
  });
});
