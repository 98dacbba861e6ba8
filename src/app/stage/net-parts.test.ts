import { describe, expect, it } from 'vitest';
import { distance2 } from '../../core/geometry/vector.ts';
import type { Net, Piece } from '../../core/net/net.ts';
import { emptyPart, type FlatPart, pushRibbon } from './flat-part.ts';
import { buildNetParts, firstOwners, pieceLines } from './net-parts.ts';
import { printLook } from './prints.ts';

/** A square panel 30 wide with a second panel 20 high over its top edge and a flap on the middle of its right edge. */
const piece: Piece = {
  id: 'a',
  title: 'A',
  outline: [
    [0, 0],
    [30, 0],
    [35, 12],
    [35, 22],
    [30, 30],
    [30, 50],
    [0, 50],
  ],
  panels: [
    {
      face: 0,
      polygon: [
        [0, 0],
        [30, 0],
        [30, 30],
        [0, 30],
      ],
    },
    {
      face: 1,
      polygon: [
        [0, 30],
        [30, 30],
        [30, 50],
        [0, 50],
      ],
    },
  ],
  flaps: [
    {
      edge: 4,
      from: 0,
      to: 2,
      panel: 0,
      polygon: [
        [30, 25],
        [30, 8],
        [35, 12],
        [35, 22],
      ],
      kind: 'mountain',
      base: 1,
      angle: 1,
    },
  ],
  hems: [],
  folds: [
    {
      edge: 2,
      ends: [
        [0, 30],
        [30, 30],
      ],
      kind: 'valley',
      angle: 0.5,
      panels: [0, 1],
    },
  ],
  glueLines: [],
  rulings: [],
  width: 35,
  height: 50,
};
const net: Net = { pieces: [piece, piece], seams: [], closing: null };

describe('pieceLines', () => {
  const lines = pieceLines(piece);
  const total = (kind: string): number =>
    lines.filter((line) => line.kind === kind).reduce((sum, { ends }) => sum + distance2(...ends), 0);

  it('cuts the outline once, without what a fold or flap joins', () => {
    const flap = distance2([30, 8], [35, 12]) + 10 + distance2([35, 22], [30, 25]);
    expect(total('cut')).toBeCloseTo(30 + 30 + (30 - 17) + 20 + 30 + 20 + flap, 9);
  });

  it('scores folds and the flap’s foot by their kind', () => {
    expect(total('valley')).toBe(30);
    expect(total('mountain')).toBe(17);
  });
});

describe('buildNetParts', () => {
  it('gives every vertex an owner and wraps the wrong side the other way', () => {
    const { prints, wrong } = buildNetParts({ vertices: [], faces: [], edges: [] }, net, {
      thickness: 0.3,
      line: 0.4,
      finish: { looks: [printLook('plain')], lookAt: () => 0, mapping: (_, p) => p },
    });
    const [print] = prints as [FlatPart];
    expect(firstOwners(net)).toEqual([0, 3]);
    expect(new Set(print.owners)).toEqual(new Set([0, 1, 2, 3, 4, 5]));
    expect(Math.max(...print.indices)).toBeLessThan(print.owners.length);
    expect(Math.min(...wrong.positions.filter((_, i) => i % 3 === 2))).toBe(-0.3);
  });
});

describe('pushRibbon', () => {
  it('is as wide as asked, and lies left of its line when told so', () => {
    const part = emptyPart();
    pushRibbon(part, [0, 0], [10, 0], 2, { owner: 0, z: 0 }, 1);
    const ys = part.positions.filter((_, i) => i % 3 === 1);
    expect(Math.min(...ys)).toBeCloseTo(0, 12);
    expect(Math.max(...ys)).toBeCloseTo(2, 12);
  });
});
