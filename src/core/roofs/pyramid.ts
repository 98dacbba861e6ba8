import { add2, type Vec3 } from '../geometry/vector.ts';
import { fail, succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { raisePeak } from './construct/peak-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { centroid, checkPeakInSight, depthsInside, footprintParam, planWithEave } from './measured-plan.ts';
import { checkPeakOffset, rectangleParams } from './outline.ts';

/** Sloping panels, one from each side of the plan, meeting in one peak. */
export const pyramid = defineRoof({
  id: 'pyramid',
  title: 'Pyramid',
  summary:
    'A panel from each side of a square, rectangular or measured plan; all meet in one peak, in the middle or off it.',
  alsoCalled: ['pyramidal', 'pavilion', 'tented', 'tent'],
  params: [
    ...rectangleParams,
    footprintParam,
    ...heightParams,
    {
      key: 'peakX',
      label: 'Peak to the right',
      help: 'How far the peak stands right (east) of the middle; negative: left.',
      quantity: 'length',
      min: -1000,
      max: 1000,
      default: 0,
    },
    {
      key: 'peakY',
      label: 'Peak to the back',
      help: 'How far the peak stands behind (north of) the middle; negative: in front.',
      quantity: 'length',
      min: -1000,
      max: 1000,
      default: 0,
    },
  ],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: (values) => {
    const { width = 0, depth = 0, corners: measured, peakX = 0, peakY = 0 } = values;
    if (measured) {
      const peak = add2(centroid(measured), [peakX, peakY]);
      const depths = depthsInside(measured, peak);
      const hidden = checkPeakInSight(depths);
      if (hidden.length > 0) return fail(...hidden);
      const top = riseFrom(values, depths[0] as number);
      return top.ok ? raisePeak({ corners: measured, peak: [...peak, top.value] }) : top;
    }
    const outside = [
      ...checkPeakOffset(peakX, width / 2, 'shape.peakX'),
      ...checkPeakOffset(peakY, depth / 2, 'shape.peakY'),
    ];
    if (outside.length > 0) return fail(...outside);
    const rise = riseFrom(values, depth / 2 + peakY);
    if (!rise.ok) return rise;
    const [x, y] = [width / 2, depth / 2];
    const corners: Vec3[] = [
      [-x, -y, 0],
      [x, -y, 0],
      [x, y, 0],
      [-x, y, 0],
    ];
    const peak: Vec3 = [peakX, peakY, rise.value];
    return succeed(
      buildSolid(
        (['south', 'east', 'north', 'west'] as const).map((id, i) => ({
          id,
          title: `${id.charAt(0).toUpperCase()}${id.slice(1)}`,
          part: 'slope',
          side: id,
          points: [corners[i] as Vec3, corners[(i + 1) % 4] as Vec3, peak],
        })),
      ),
    );
  },
  examples: [
    { title: 'Watch tower', shape: { width: 52, depth: 52, rise: 61 } },
    { title: 'Low pavilion', shape: { width: 96, depth: 70, pitch: 24 } },
    { title: 'Leaning cap', shape: { width: 60, depth: 54, rise: 45, peakX: 9, peakY: -6 } },
    { title: 'Crooked tower', shape: { lengths: [62, 55, 63, 52], diagonal: 82, rise: 58 } },
  ],
});
