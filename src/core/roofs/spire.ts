import type { Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { titleCase, windOf } from '../solid/compass.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';

/** A regular pyramid of 3 to 24 panels, one of them facing south. */
export const spire = defineRoof({
  id: 'spire',
  title: 'Spire',
  summary: 'Equal panels on a regular plan of 3 to 24 sides that meet in one peak over its middle.',
  alsoCalled: ['steeple', 'turret', 'tented'],
  params: [
    { key: 'sides', label: 'Sides', help: 'How many panels go round.', quantity: 'count', min: 3, max: 24, default: 8 },
    {
      key: 'side',
      label: 'Side',
      help: 'Length of one eave.',
      quantity: 'length',
      min: 2,
      max: 1500,
      oneOf: 'plan',
      outline: true,
    },
    {
      key: 'acrossCorners',
      label: 'Across corners',
      help: 'Diameter of the circle through the corners of the eave.',
      quantity: 'length',
      min: 5,
      max: 2000,
      oneOf: 'plan',
      outline: true,
    },
    {
      key: 'acrossFlats',
      label: 'Across flats',
      help: 'From one eave straight across to the opposite one; even numbers of sides only.',
      quantity: 'length',
      min: 5,
      max: 2000,
      oneOf: 'plan',
      outline: true,
    },
    ...heightParams,
  ],
  hasVerge: false,
  outlineFromBody: (body, { eave }, { sides = 8 }) => {
    if (body.outline.length !== sides) return fail(unlikeBody(body.outline.length, sides));
    if (body.rectangle && body.rectangle.width !== body.rectangle.depth) return fail(unevenBody);
    const [x, y] = body.outline[0] as readonly [number, number];
    return succeed({ side: 2 * (Math.hypot(x, y) * Math.cos(Math.PI / sides) + eave) * Math.tan(Math.PI / sides) });
  },
  build: (values) => {
    const { sides = 8 } = values;
    if (values.acrossFlats !== undefined && sides % 2 === 1) return fail(oddAcrossFlats(sides));
    const apothem = apothemOf(values, sides);
    const rise = riseFrom(values, apothem);
    if (!rise.ok) return rise;
    const radius = apothem / Math.cos(Math.PI / sides);
    const corners = Array.from({ length: sides }, (_, i): Vec3 => {
      const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / sides;
      return [radius * Math.cos(angle), radius * Math.sin(angle), 0];
    });
    const peak: Vec3 = [0, 0, rise.value];
    return succeed(
      buildSolid(
        corners.map((corner, i) => {
          const facing = -Math.PI / 2 + (2 * i * Math.PI) / sides;
          // Sixteen winds tell up to sixteen panels apart; beyond that they are numbered from the south.
          const id = sides <= 16 ? windOf(Math.cos(facing), Math.sin(facing)) : `side-${i + 1}`;
          const title = sides <= 16 ? titleCase(id) : `Side ${i + 1}`;
          return { id, title, part: 'slope', side: id, points: [corner, corners[(i + 1) % sides] as Vec3, peak] };
        }),
      ),
    );
  },
  examples: [
    { title: 'Light tower cap', shape: { sides: 8, acrossFlats: 58, rise: 84 } },
    { title: 'Chapel spire', shape: { sides: 6, side: 22, slant: 118 } },
    { title: 'Three-sided finial', shape: { sides: 3, side: 40, pitch: 60 } },
  ],
});

/** Centre to the middle of an eave, mm. */
function apothemOf(
  { side, acrossCorners, acrossFlats }: { side?: number; acrossCorners?: number; acrossFlats?: number },
  sides: number,
): number {
  if (side !== undefined) return side / (2 * Math.tan(Math.PI / sides));
  if (acrossFlats !== undefined) return acrossFlats / 2;
  return ((acrossCorners ?? 0) / 2) * Math.cos(Math.PI / sides);
}

const oddAcrossFlats = (sides: number): Issue => ({
  level: 'error',
  code: 'odd-across-flats',
  path: 'shape.acrossFlats',
  numbers: { sidesCount: sides },
  message: 'With {sidesCount} sides no eave lies opposite another, so there is no size across flats.',
  remedy: 'Give the side or the size across corners, or take an even number of sides.',
});

const unlikeBody = (found: number, wanted: number): Issue => ({
  level: 'error',
  code: 'body-sides-differ',
  path: 'body',
  numbers: { foundCount: found, wantedCount: wanted },
  message: 'An overhang needs a body like the roof: the body has {foundCount} sides, the roof {wantedCount}.',
  remedy: 'Give the body as many sides as the roof, or give the outline in the shape instead of an overhang.',
});

const unevenBody: Issue = {
  level: 'error',
  code: 'body-not-square',
  path: 'body',
  message: 'A spire has equal sides, but the body is longer than it is wide.',
  remedy: 'Make the body square, take a pyramid, or give the outline in the shape instead of an overhang.',
};
