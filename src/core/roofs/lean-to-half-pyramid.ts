import { fail, succeed } from '../issue.ts';
import { buildLeanTo } from './construct/lean-to.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkPeakOffset, needsRectangle, rectangleParams } from './outline.ts';
import { backParam } from './round.ts';

/** Half of a pyramid against a wall. */
export const leanToHalfPyramid = defineRoof({
  id: 'lean-to-half-pyramid',
  title: 'Lean-to half pyramid',
  summary: 'Three panels on a rectangle that meet in a peak on the wall behind.',
  alsoCalled: ['porch', 'hipped lean-to', 'bay', 'oriel'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'peakX',
      label: 'Peak to the right',
      help: 'How far the peak stands right (east) of the middle of the wall; negative: left.',
      quantity: 'length',
      min: -1000,
      max: 1000,
      default: 0,
    },
    backParam,
  ],
  hasVerge: false,
  // The wall behind goes on up: nothing stands out over it.
  outlineFromBody: ({ rectangle }, { eave }) =>
    rectangle ? succeed({ width: rectangle.width + 2 * eave, depth: rectangle.depth + eave }) : fail(needsRectangle),
  build: (values, body) => {
    const { width = 0, depth = 0, peakX = 0, back = 'wall' } = values;
    const outside = checkPeakOffset(peakX, width / 2, 'shape.peakX');
    if (outside.length > 0) return fail(...outside);
    const rise = riseFrom(values, depth);
    if (!rise.ok) return rise;
    const x = width / 2;
    return succeed(
      buildLeanTo({
        eave: [
          [-x, 0],
          [-x, -depth],
          [x, -depth],
          [x, 0],
        ],
        peakX,
        rise: rise.value,
        back,
        body,
      }),
    );
  },
  examples: [
    { title: 'Ticket porch', shape: { width: 62, depth: 30, rise: 34 } },
    { title: 'Coal hatch', shape: { width: 40, depth: 26, pitch: 40, peakX: 6, back: 'open' } },
  ],
});
