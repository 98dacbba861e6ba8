import { describe, expect, it } from 'vitest';
import type { Body, Neighbour } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { clearances } from './neighbours.ts';

const body: Body = {
  outline: [
    [-25, -25],
    [25, -25],
    [25, 25],
    [-25, 25],
  ],
  height: 80,
  rectangle: { width: 50, depth: 50 },
};

/** Eave 60 x 60, rise 45, its eave plane 72.5 over the table: it stands out by 5. */
const built = findKind('pyramid')?.build({ width: 60, depth: 60, rise: 45 }, body);
if (!built?.ok) throw new Error('no roof');
const solid = built.value;
const beside = (neighbour: Neighbour): number | undefined =>
  clearances(solid, body, { neighbours: [neighbour], rest: 72.5 })[0]?.distance;

describe('the clearance to a neighbour', () => {
  it('of a higher one is the gap less the overhang', () => {
    expect(beside({ side: 'east', gap: 12, height: 100 })).toBeCloseTo(7, 9);
  });

  it('of a lower one is measured to its top edge', () => {
    expect(beside({ side: 'north', gap: 8, height: 68.5 })).toBeCloseTo(Math.hypot(3, 4), 9);
  });

  it('right under the eave is the height between', () => {
    expect(beside({ side: 'south', gap: 2, height: 70 })).toBeCloseTo(2.5, 9);
  });

  it('is below zero where the roof runs into it', () => {
    expect(beside({ side: 'west', gap: 1, height: 100 })).toBeCloseTo(-4, 9);
    // The eave lies 10 below the top of the neighbour and 4 behind its face; up the slope of 45 on 30 it comes out again.
    expect(beside({ side: 'west', gap: 1, height: 75.5 })).toBeCloseTo(-3, 9);
  });

  it('of a round body is measured towards a wind', () => {
    const outline = Array.from({ length: 360 }, (_, i) => {
      const angle = (i * Math.PI) / 180;
      return [25 * Math.cos(angle), 25 * Math.sin(angle)] as const;
    });
    const round: Body = { outline, height: 80, rectangle: null, isRound: true };
    const cone = findKind('cone')?.build({ diameter: 60, rise: 45 }, round);
    if (!cone?.ok) throw new Error('no roof');
    const neighbours = [{ side: 'south-east', gap: 9, height: 100 }];
    expect(clearances(cone.value, round, { neighbours, rest: 72.5 })[0]?.distance).toBeCloseTo(4, 2);
  });
});
