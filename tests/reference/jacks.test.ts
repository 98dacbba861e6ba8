import { describe, expect, test } from 'vitest';
import { cross3, dot3, length3, unit3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { faceFrame } from '../../src/core/solid/face-frame.ts';
import type { Edge, Solid } from '../../src/core/solid/solid.ts';
import { MM_PER_INCH, toDegrees } from '../../src/core/units/units.ts';
import { jackSideCut, jackTable, unequalCorners } from './jack-table.ts';
import { rafterTable } from './rafter-table.ts';
import {
  directionOf,
  edgeBetween,
  ell,
  faceOf,
  feet,
  inches,
  jackLengths,
  lShape,
  marked,
  pitchOf,
  raised,
  solidOf,
} from './testing/framing.ts';

describe('jack rafters', () => {
  const kinds: readonly (readonly [string, (pitch: number) => readonly [Solid, number, Edge]])[] = [
    [
      'hip jacks over a rectangle',
      (pitch) => {
        const solid = solidOf('hip', { width: feet(40), depth: feet(28), pitch });
        return [solid, faceOf(solid, 'south'), edgeBetween(solid, 'hip', 'south', 'west')];
      },
    ],
    [
      'hip jacks over an L',
      (pitch) => {
        const solid = raised(lShape, [pitch]);
        return [solid, faceOf(solid, '1'), edgeBetween(solid, 'hip', '0', '1')];
      },
    ],
    [
      'valley jacks of an L',
      (pitch) => {
        const solid = raised(lShape, [pitch]);
        return [solid, faceOf(solid, '3'), edgeBetween(solid, 'valley', '2', '3')];
      },
    ],
  ];

  describe.each(kinds)('%s', (_, make) => {
    test.each(jackTable)('$rise in 12 at $spacing in: $printed in', ({ rise, spacing, printed, step }) => {
      const [solid, face, edge] = make(pitchOf(rise));
      const count = Math.floor(Math.min(92, 13 * 12) / spacing);
      const lengths = jackLengths(solid, face, edge, inches(spacing), count);
      lengths.forEach((length, i) => {
        const difference = length - (lengths[i - 1] ?? 0);
        if (step === 'hundredth') expect((difference / MM_PER_INCH).toFixed(2)).toBe(printed);
        else expect(marked(difference, step)).toBe(printed);
      });
    });

    // Where no table was found: the rule, spacing times the common length over its run (NAVEDTRA 14044 fig. 2-52).
    test.each(rafterTable)('$rise in 12: every jack is a spacing times $common / 12 longer', ({ rise, common }) => {
      const [solid, face, edge] = make(pitchOf(rise));
      for (const spacing of [16, 24]) {
        const [first = 0, second = 0, third = 0] = jackLengths(solid, face, edge, inches(spacing), 3);
        expect(second / first).toBeCloseTo(2, 9);
        expect(third / first).toBeCloseTo(3, 9);
        expect(((first / MM_PER_INCH / spacing) * 12).toFixed(2)).toBe(common);
      }
    });

    test('8 in 12: the side cut is 10 on 12', () => {
      const [solid, face, edge] = make(pitchOf(jackSideCut.rise));
      const [first = 0] = jackLengths(solid, face, edge, inches(16), 1);
      expect(((12 * inches(16)) / first).toFixed(0)).toBe(jackSideCut.printed);
    });
  });
});

describe('corners of unequal pitch', () => {
  test.each(
    unequalCorners.map((corner) => ({ ...corner, rises: corner.planes.map(({ rise }) => rise).join(' and ') })),
  )('$role of $rises in 12', ({ role, slope, planes }) => {
    const [first = 0, second = 0] = planes.map(({ rise }) => pitchOf(rise));
    const other = pitchOf(9);
    const pitches = [other, other, first, second, other, other];
    // The corner in question is that between sides 2 and 3 of the L, or 5 and 0 of a long rectangle.
    const solid =
      role === 'valley'
        ? raised(lShape, pitches)
        : raised(
            (
              [
                [0, 0],
                [60, 0],
                [60, 40],
                [0, 40],
              ] as const
            ).map(([x, y]): Vec2 => [feet(x), feet(y)]),
            [first, other, other, second],
          );
    const ids = role === 'valley' ? ['2', '3'] : ['0', '3'];
    const edge = edgeBetween(solid, role, ids[0] ?? '', ids[1] ?? '');
    const along = directionOf(solid, edge);
    expect(toDegrees(Math.atan2(along[2], Math.hypot(along[0], along[1]))).toFixed(5)).toBe(slope);
    // Level across the hip: a plane that holds both is the one the backing is measured from.
    const back = unit3(cross3(along, [-along[1], along[0], 0]));
    planes.forEach(({ plan, panel, sideCut, backing, jack }, i) => {
      const face = faceOf(solid, ids[i] ?? '');
      const { normal, x } = faceFrame(solid, face);
      const unfold = (v: Vec3): number => toDegrees(Math.acos(Math.abs(dot3(v, x)) / length3(v)));
      if (plan) expect(unfold([along[0], along[1], 0]).toFixed(5)).toBe(plan);
      if (panel) expect(unfold(along).toFixed(5)).toBe(panel);
      if (sideCut) expect((90 - unfold(along)).toFixed(5)).toBe(sideCut);
      if (backing) expect(toDegrees(Math.acos(Math.abs(dot3(normal, back)))).toFixed(5)).toBe(backing);
      if (jack) {
        // Up to the ridge of the lower wing, so over an L where the plane in question is on that.
        const own = raised(i === 0 ? ell(12, 30) : ell(30, 12), pitches);
        const valley = edgeBetween(own, role, ids[0] ?? '', ids[1] ?? '');
        const [length = 0] = jackLengths(own, faceOf(own, ids[i] ?? ''), valley, inches(16), 1);
        // Worked out by hand from printed angles: right to one of the last digit.
        expect(Math.abs(length / MM_PER_INCH - Number(jack))).toBeLessThan(1e-5);
      }
    });

    const [one, two] = planes.map(({ backing }) => Number(backing));
    if (one && two) {
      const turn = Math.abs(toDegrees(edge.dihedral ?? 0) - 180);
      expect(turn).toBeCloseTo(one + two, 4);
    }
  });
});
