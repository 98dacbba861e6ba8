import { describe, expect, test } from 'vitest';
import { ringArea } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import { UPRIGHT } from '../../src/core/roofs/construct/raise-roof.ts';
import { measureSolid } from '../../src/core/solid/measure.ts';
import type { Edge, Solid } from '../../src/core/solid/solid.ts';
import { fromDegrees, MM_PER_INCH, toDegrees } from '../../src/core/units/units.ts';
import { pitchTable, rafterTable } from './rafter-table.ts';
import {
  directionOf,
  edgeBetween,
  faceOf,
  feet,
  inches,
  lShape,
  marked,
  perFoot,
  pitchOf,
  raised,
  solidOf,
} from './testing/framing.ts';

describe('framing square, over an L', () => {
  test.each(rafterTable)('$rise in 12: hips and valley are $hip in for a foot of run', ({ rise, common, hip }) => {
    const pitch = pitchOf(rise);
    const solid = raised(lShape, [pitch]);
    const valleys = solid.edges.filter(({ role }) => role === 'valley');
    expect(valleys).toHaveLength(1);
    expect(solid.edges.filter(({ role }) => role === 'hip')).toHaveLength(6);
    for (const edge of solid.edges) {
      if (edge.role === 'hip' || edge.role === 'valley') expect(perFoot(solid, edge, pitch).toFixed(2)).toBe(hip);
    }
    // A common rafter of the wide wing, ten feet of run.
    const wide = measureSolid(solid).faces[faceOf(solid, '0')];
    expect(((wide?.slant ?? 0) / MM_PER_INCH / 10).toFixed(2)).toBe(common);
  });

  test.each(pitchTable.filter(({ rise }) => rise <= 18))(
    '$rise in 12: hip and valley factor',
    ({ rise, hip, slope }) => {
      const pitch = pitchOf(rise);
      const solid = raised(lShape, [pitch]);
      for (const edge of solid.edges) {
        if (hip && (edge.role === 'hip' || edge.role === 'valley'))
          expect((perFoot(solid, edge, pitch) / 12).toFixed(4)).toBe(hip);
      }
      // The slope factor is also how much larger the roof is than its plan, whatever the plan (RoofOnline's companion rule).
      if (slope) expect((measureSolid(solid).area / ringArea(lShape)).toFixed(4)).toBe(slope);
    },
  );
});

describe('plan of a hip roof', () => {
  test.each(rafterTable)('$rise in 12: hips at 45 degrees, the ridge as long as length less width', ({ rise }) => {
    // Miller, The Carpenters' Guide, fig. 23; Griffith, Carpentry (1916), App. IV; Building Construction and
    // Superintendence, sec. 75: hips and ridge do not move in plan when the pitch changes.
    for (const [width, depth] of [
      [30, 16],
      [17, 41],
    ] as const) {
      const solid = solidOf('hip', {
        width: feet(width),
        depth: feet(depth),
        rise: (feet(Math.min(width, depth)) * rise) / 24,
      });
      for (const edge of solid.edges) {
        const along = directionOf(solid, edge);
        if (edge.role === 'hip')
          expect(toDegrees(Math.atan2(Math.abs(along[1]), Math.abs(along[0])))).toBeCloseTo(45, 9);
        if (edge.role === 'ridge') expect(edge.length).toBeCloseTo(feet(Math.abs(width - depth)), 7);
      }
    }
  });

  test('a gable wing 16 ft wide that stands out 4 ft has a ridge of 12 ft, 5 ft 4 in up at 8 in 12', () => {
    // Miller, The Carpenters' Guide, fig. 23 and "How to find the length of ridge".
    const pitch = pitchOf(8);
    const ring = (
      [
        [0, 0],
        [20, 0],
        [20, -4],
        [36, -4],
        [36, 0],
        [56, 0],
        [56, 24],
        [0, 24],
      ] as const
    ).map(([x, y]): Vec2 => [feet(x), feet(y)]);
    const solid = raised(
      ring,
      ring.map((_, i) => (i === 2 || i === 5 || i === 7 ? UPRIGHT : pitch)),
    );
    const wing = edgeBetween(solid, 'ridge', '1', '3');
    expect(wing.length).toBeCloseTo(feet(12), 7);
    expect(solid.vertices[wing.ends[0]]?.[2]).toBeCloseTo(feet(5) + inches(4), 7);
  });
});

describe('rafters and corners with printed lengths', () => {
  const commonOf = (span: number, rise: number): number =>
    measureSolid(solidOf('gable', { width: feet(30), depth: span, pitch: pitchOf(rise), ends: 'open' })).faces[0]
      ?.slant ?? 0;
  const hipOf = (solid: Solid): number => solid.edges.find(({ role }) => role === 'hip')?.length ?? 0;

  test('7 in 12 over 16 ft: 9 ft 3 1/8 in', () => {
    // NAVEDTRA 14044 vol. 2, fig. 2-17, example 1.
    expect(marked(commonOf(feet(16), 7) - feet(9), '1/16in')).toBe('3 1/8');
  });

  test('12 in 12 over 25 ft: 17 ft 8 1/8 in', () => {
    // Griffith, Carpentry (1916), App. IV.
    expect(marked(commonOf(feet(25), 12) - feet(17), '1/16in')).toBe('8 1/8');
  });

  test('13 in 12 over a run of 10 ft 4 in: 182.79 in, by a table of 17.69 a foot', () => {
    // US Army EN0069, fig. 2-16: the table's figure times the run.
    const length = commonOf(2 * (feet(10) + inches(4)), 13) / MM_PER_INCH;
    expect((Number(((length * 12) / 124).toFixed(2)) * 10.333).toFixed(2)).toBe('182.79');
  });

  test('9 and 10 in 12 over a foot of run, in quarters and eighths', () => {
    // Hodgson, ABC of the Steel Square and Its Uses, figs 57 and 58.
    const tower = (rise: number): Solid => solidOf('pyramid', { width: feet(2), depth: feet(2), pitch: pitchOf(rise) });
    expect(marked(hipOf(tower(9)), '1/8in')).toBe('19 1/4');
    expect(marked(commonOf(feet(2), 10), '1/8in')).toBe('15 5/8');
    expect(marked(hipOf(tower(10)), '1/8in')).toBe('19 3/4');
  });

  test('a bank at 1 in 1.5 with a run of 21 ft: 25.24 ft, its corner 32.83 ft', () => {
    // University of Regina, Math Central, QQ.09.03, an earthen pit.
    const solid = solidOf('pyramid', { width: 42, depth: 42, rise: 14 });
    expect(measureSolid(solid).faces[0]?.slant.toFixed(2)).toBe('25.24');
    expect(hipOf(solid).toFixed(2)).toBe('32.83');
  });

  test('an octagon with a common run of 12 in has hips of 13 in run and half a side of 5 in', () => {
    // Griffith, Carpentry (1916), sec. 38: a carpenter's whole inches.
    const solid = solidOf('spire', { sides: 8, acrossFlats: 24, pitch: pitchOf(8) });
    const along = directionOf(solid, solid.edges.find(({ role }) => role === 'hip') as Edge);
    expect(Math.hypot(along[0], along[1]).toFixed(0)).toBe('13');
    expect(((solid.edges.find(({ role }) => role === 'eave')?.length ?? 0) / 2).toFixed(0)).toBe('5');
  });

  test('an octagon 65 ft to its corners has sides of 49.7488462 ft', () => {
    // The Math Forum, "Bricks to cover a steeple", 1997.
    const solid = solidOf('spire', { sides: 8, acrossCorners: 130, pitch: fromDegrees(60) });
    expect(solid.edges.find(({ role }) => role === 'eave')?.length.toFixed(7)).toBe('49.7488462');
  });
});
