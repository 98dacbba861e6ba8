import { quarterTurns, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { fail, succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { titleCase } from '../solid/compass.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, heightParams, riseFrom } from './height.ts';
import { squareParam, squareWithEave } from './outline.ts';

const winds = ['south', 'east', 'north', 'west'] as const;

/** An eight-sided spire on a square: each corner that it leaves open is closed by a broach leaning on the spire. */
export const broachSpire = defineRoof({
  id: 'broach-spire',
  title: 'Broach spire',
  summary: 'An eight-sided spire on a square tower, its four corners closed by broaches.',
  alsoCalled: ['steeple', 'church', 'octagon'],
  params: [
    squareParam,
    ...heightParams,
    {
      key: 'broachRise',
      label: 'Broach rise',
      help: 'From the eave to where a broach meets the spire.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 20,
    },
  ],
  hasVerge: false,
  outlineFromBody: squareWithEave,
  build: (values) => {
    const { width = 0, broachRise = 0 } = values;
    const half = width / 2;
    const height = riseFrom(values, half);
    if (!height.ok) return height;
    const rise = height.value;
    const tooHigh = checkLevel(broachRise, rise, 'broachRise');
    if (tooHigh.length > 0) return fail(...tooHigh);
    const peak: Vec3 = [0, 0, rise];
    // Where the octagon, as wide as the square, leaves the square's side.
    const corner = half * Math.tan(Math.PI / 8);
    // On the middle line of a diagonal panel the run shrinks from half the width to nothing at the peak.
    const lean = (half * (1 - broachRise / rise)) / Math.SQRT2;
    return succeed(
      buildSolid(
        winds.flatMap((id, i): FaceDraft[] => {
          const place = ([x, y]: Vec2, z: number): Vec3 => [...quarterTurns([x, y], i), z] as Vec3;
          const [left, right] = [place([-corner, -half], 0), place([corner, -half], 0)];
          const [tip, over, beyond] = [
            place([half, -half], 0),
            place([lean, -lean], broachRise),
            place([half, -corner], 0),
          ];
          const diagonal = diagonals[i] as string;
          const slope = { part: 'slope' } as const;
          return [
            { ...slope, id, side: id, title: titleCase(id), points: [left, right, peak] },
            {
              ...slope,
              id: `${diagonal}-broach-left`,
              side: `${diagonal}-broach-left`,
              title: `${titleCase(diagonal)} broach, left`,
              points: [right, tip, over],
            },
            {
              ...slope,
              id: `${diagonal}-broach-right`,
              side: `${diagonal}-broach-right`,
              title: `${titleCase(diagonal)} broach, right`,
              points: [tip, beyond, over],
            },
            { ...slope, id: diagonal, side: diagonal, title: titleCase(diagonal), points: [right, over, beyond, peak] },
          ];
        }),
      ),
    );
  },
  examples: [
    { title: 'Chapel of the pilots', shape: { width: 64, rise: 148, broachRise: 38 } },
    { title: 'Harbour bell', shape: { width: 82, pitch: 66, broachRise: 24 } },
  ],
});

const diagonals = ['south-east', 'north-east', 'north-west', 'south-west'] as const;
