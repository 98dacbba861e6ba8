import fc from 'fast-check';
import { footprintFrom } from '../../src/core/footprint/footprint.ts';
import { type Plan, ringsOf, standOut } from '../../src/core/footprint/offset.ts';
import { sideNames } from '../../src/core/footprint/sides.ts';
import { at, distanceToSegment } from '../../src/core/geometry/polygon.ts';
import { cross2, dot2, sub2, type Vec2 } from '../../src/core/geometry/vector.ts';
import type { Body, SidePitches } from '../../src/core/project/project.ts';
import { anyRectilinear, anySimple, arbitrarySeed, numbersFrom, turned, withCourts } from './arbitrary-outline.ts';

/** Shortest side that a maker would measure, mm. */
const LEAST_SIDE = 4;

/** Sides that all but touch, or meet at a sharper corner than this, leave nothing that could be cut. */
const LEAST_APART = 2;
const LEAST_CORNER = (8 * Math.PI) / 180;

function hasSplinter(ring: readonly Vec2[]): boolean {
  return ring.some((p, i) => {
    const [into, out] = [sub2(p, at(ring, i - 1)), sub2(at(ring, i + 1), p)];
    const turn = Math.atan2(cross2(into, out), dot2(into, out));
    if (Math.abs(turn) > Math.PI - LEAST_CORNER) return true;
    return ring.some(
      (q, j) => j !== i && at(ring, j + 1) !== p && distanceToSegment(p, q, at(ring, j + 1)) < LEAST_APART,
    );
  });
}

type Next = () => number;

/** Four sides nearly at right angles, as bodies are. */
function crooked(next: Next): Vec2[] {
  const [width, depth] = [100 + 900 * next(), 100 + 900 * next()];
  const off = (): number => (next() - 0.5) * 0.2 * Math.min(width, depth);
  const near = (x: number, y: number): Vec2 => [x + off(), y + off()];
  return [near(0, 0), near(width, 0), near(width, depth), near(0, depth)];
}

/** All about a metre wide, as courts are drawn for. */
const outlines: readonly ((next: Next) => Vec2[])[] = [
  crooked,
  crooked,
  (next) => anySimple(3 + Math.floor(next() * 6), next),
  (next) => anyRectilinear(2 + Math.floor(next() * 6), next),
];

/** A measured outline, with courts where asked for, some with all corners on whole millimetres. */
export const arbitraryPlan = (courts: boolean): fc.Arbitrary<Plan> =>
  arbitrarySeed
    .map((seed): Plan | null => {
      const next = numbersFrom(seed);
      const outline = (outlines[Math.floor(next() * outlines.length)] as (typeof outlines)[number])(next);
      const rings = courts && next() < 0.4 ? withCourts(outline, next) : [outline];
      const isTyped = next() < 0.5;
      const [corners = [], ...holes] = turned(rings, 0, 0.04 + 0.3 * next()).map((ring) =>
        ring.map(([x, y]): Vec2 => (isTyped ? [Math.round(x), Math.round(y)] : [x, y])),
      );
      const open = holes.map((hole) => hole.toReversed());
      const made = footprintFrom({ corners, courts: open }, { gap: 0, side: LEAST_SIDE, angle: 0 });
      if (!made.ok || ringsOf(made.value).some(hasSplinter)) return null;
      return open.length === 0 ? { corners: made.value.corners } : { ...made.value };
    })
    .filter((plan) => plan !== null);

/** Some sides with a pitch of their own or a gable. */
export const arbitraryPitches = (
  plan: Plan,
  { min, max }: { readonly min: number; readonly max: number },
): fc.Arbitrary<SidePitches> =>
  fc
    .array(
      fc.oneof(
        { weight: 6, arbitrary: fc.constant(null) },
        { weight: 2, arbitrary: fc.constant('gable' as const) },
        { weight: 1, arbitrary: fc.double({ min, max, noNaN: true }) },
      ),
      { minLength: ringsOf(plan).flat().length, maxLength: ringsOf(plan).flat().length },
    )
    .map((pitches) =>
      Object.fromEntries(
        sideNames(ringsOf(plan)).flatMap(({ id }, i) => {
          const pitch = pitches[i];
          return pitch === null || pitch === undefined ? [] : [[id, pitch] as const];
        }),
      ),
    );

/** A body some way inside a plan, the same all round or nothing at gables; null where there is no room. */
export function bodyInside(plan: Plan, by: number, height: number, isFlush: (id: string) => boolean): Body | null {
  const distances = sideNames(ringsOf(plan)).map(({ id }) => (isFlush(id) ? 0 : -by));
  const inside = standOut(plan, distances);
  if (!inside.ok) return null;
  const { corners: outline, courts } = inside.value;
  return { outline, height, rectangle: null, ...(courts ? { courts } : {}) };
}
