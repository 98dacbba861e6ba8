import { describe, expect, it } from 'vitest';
import type { Net } from '../../core/net/net.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { bodySizes, measureNet } from './measures.ts';

/** One sloping triangle on an eave 40 long, 50 up its fall line. */
const solid = {
  vertices: [],
  faces: [{ id: 'south', title: 'South', loop: [4, 0, 1], part: 'slope', side: 's' }],
  edges: [{ id: 'e', ends: [0, 1], faces: [0], role: 'eave', length: 40, dihedral: null }],
} as unknown as Solid;
const piece = {
  panels: [
    {
      face: 0,
      polygon: [
        [25, 50],
        [0, 0],
        [40, 0],
      ],
    },
  ],
  flaps: [],
  folds: [],
};
const net = { pieces: [piece, piece], seams: [] } as unknown as Net;

describe('measureNet', () => {
  it('measures the eave outside and the slant along the fall line, once for equal panels', () => {
    const [eave, slant, ...others] = measureNet(
      net,
      solid,
      [
        [100, -200],
        [200, -200],
      ],
      6,
    );
    expect(others).toEqual([]);
    expect(eave).toMatchObject({
      length: 40,
      ends: [
        [100, -206],
        [140, -206],
      ],
      onPaper: false,
    });
    expect(slant).toMatchObject({
      length: 50,
      ends: [
        [125, -200],
        [125, -150],
      ],
      onPaper: true,
    });
  });
});

describe('bodySizes', () => {
  it('gives front and east side of a rectangle, the front alone of a regular plan', () => {
    const outline = [
      [20, 15],
      [-20, 15],
      [-20, -15],
      [20, -15],
    ] as const;
    expect(bodySizes(outline, { width: 40, depth: 30 }).map((size) => size.length)).toEqual([40, 30]);
    expect(bodySizes(outline, null)).toHaveLength(1);
    expect(bodySizes([], null)).toEqual([]);
  });
});
