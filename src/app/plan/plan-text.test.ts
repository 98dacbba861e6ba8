import { describe, expect, it } from 'vitest';
import type { JsonObject } from '../state/file-path.ts';
import { addCorner, moveCorner, type Rings, removeCorner } from './plan-edits.ts';
import { carrySides, namesOf, readPlan, typeLength, writePlan } from './plan-text.ts';

const ell: JsonObject = {
  corners: [
    ['0in', '0in'],
    ['4in', 0],
    ['4in', '1 1/2"'],
    ['2.5in', '1 1/2"'],
    ['2.5in', '3in'],
    [0, '3in'],
  ],
  courts: [
    [
      ['1/2in', '1/2in'],
      ['1in', '1/2in'],
      ['1in', '1in'],
    ],
  ],
  height: '5in',
};
const rings = readPlan(ell, null, 1) as Rings;

describe('a plan in the file', () => {
  it('is read from the typed corners', () => {
    expect(rings[0]?.[2]).toEqual([101.6, 1.5 * 25.4]);
    expect(rings[1]).toHaveLength(3);
  });

  it('is, where it is said otherwise, the made one at typed size from its first corner', () => {
    const outline = [
      [-5, -4],
      [5, -4],
      [5, 4],
      [-5, 4],
    ] as const;
    expect(readPlan({ width: '20mm', depth: '16mm' }, { outline }, 0.5)).toEqual([
      [
        [0, 0],
        [20, 0],
        [20, 16],
        [0, 16],
      ],
    ]);
  });

  it('is written back with every untouched corner as it was typed', () => {
    const moved = moveCorner(rings, { ring: 0, index: 3 }, [50.8, 38.1]);
    const written = writePlan(ell, rings, moved, 'in');
    expect(written).toEqual({
      ...ell,
      corners: (ell['corners'] as readonly string[][]).with(3, ['2in', '1 1/2in']),
    });
    expect(Object.keys(written)).toEqual(['corners', 'courts', 'height']);
  });

  it('takes the place of sizes', () => {
    const square: Rings = [
      [
        [0, 0],
        [10, 0],
        [10, 10],
      ],
    ];
    expect(writePlan({ width: 1, depth: 2, height: 3 }, square, { rings: square }, 'mm')).toEqual({
      corners: [
        ['0mm', '0mm'],
        ['10mm', '0mm'],
        ['10mm', '10mm'],
      ],
      height: 3,
    });
  });

  it('takes a length where it was measured', () => {
    const spot = { ring: 0, index: 3 };
    expect(typeLength({ width: '3in', depth: '2in' }, spot, '4in')).toEqual({ width: '3in', depth: '4in' });
    expect(typeLength({ lengths: [1, 2, 3, 4], diagonal: 5 }, spot, '9mm')).toEqual({
      lengths: [1, 2, 3, '9mm'],
      diagonal: 5,
    });
    expect(typeLength({ sides: 6, acrossFlats: '3in' }, spot, '2in')).toEqual({ sides: 6, side: '2in' });
    expect(typeLength(ell, spot, '9mm')).toBeNull();
  });
});

describe('what was typed for single sides', () => {
  it('is known by the wind a side faces, in the order of the corners', () => {
    const names = namesOf(rings).map((ring) => ring.map(({ id }) => id));
    expect(names[0]).toEqual(['south', 'east', 'north', 'east-2', 'north-2', 'west']);
    // The first side of the court runs along its front: the building lies in front of it, so that it faces north.
    expect(names[1]?.[0]).toBe('court-north');
  });

  it('stays with the side when others are added and taken away', () => {
    const said = { 'east-2': 'gable', south: '9/12' };
    // The halves of the first east side now face north-east and south-east, so that the other is the only one.
    const more = addCorner(rings, { ring: 0, index: 1 }, [110, 20]);
    expect(carrySides(said, rings, more)).toEqual({ south: '9/12', east: 'gable' });
    const split = addCorner(rings, { ring: 0, index: 0 });
    expect(carrySides(said, rings, split)).toEqual({ south: '9/12', 'south-2': '9/12', 'east-2': 'gable' });
    const fewer = removeCorner(rings, { ring: 0, index: 2 });
    expect(Object.values(carrySides(said, rings, fewer as NonNullable<typeof fewer>))).toEqual(['9/12', 'gable']);
  });
});
