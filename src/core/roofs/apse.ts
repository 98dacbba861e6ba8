import { succeed } from '../issue.ts';
import { buildLeanTo } from './construct/lean-to.ts';
import { defineRoof } from './definition.ts';
import { halfApothem, halfRegular, halfWithEave, wallWidthParam } from './half-regular.ts';
import { heightParams, riseFrom } from './height.ts';
import { backParam } from './round.ts';

const USUAL = 5;

/** Three to seven sides of a regular plan round half a turn, against a wall. */
export const apse = defineRoof({
  id: 'apse',
  title: 'Apse',
  summary: 'Three to seven equal panels round half of a regular plan that meet in a peak on the wall behind.',
  alsoCalled: ['apsidal', 'chancel', 'bay', 'oriel', 'polygonal'],
  params: [
    {
      key: 'sides',
      label: 'Sides',
      help: 'How many panels go round the front, from wall to wall.',
      quantity: 'count',
      min: 3,
      max: 7,
      default: USUAL,
    },
    wallWidthParam,
    ...heightParams,
    backParam,
  ],
  hasVerge: false,
  outlineFromBody: (body, overhang, { sides = USUAL }) =>
    halfWithEave(body, overhang, { sides: 2 * sides, cut: 'corners' }),
  build: (values, body) => {
    const half = { sides: 2 * (values.sides ?? USUAL), cut: 'corners', width: values.width ?? 0 } as const;
    const rise = riseFrom(values, halfApothem(half));
    if (!rise.ok) return rise;
    return succeed(
      buildLeanTo({ eave: halfRegular(half), peakX: 0, rise: rise.value, back: values.back ?? 'wall', body }),
    );
  },
  examples: [
    { title: 'Apse of the chapel', shape: { sides: 5, width: 74, rise: 42 } },
    { title: 'Bay of the pilot office', shape: { sides: 3, width: 52, pitch: 38, back: 'open' } },
  ],
});
