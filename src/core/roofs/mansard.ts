import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { evenRise, footprintParam, planWithEave, raiseEvenly } from './measured-plan.ts';
import { rectangleParams } from './outline.ts';
import { breakSlope, twoPitchParams } from './two-pitches.ts';

/** Two pitches on every side. */
export const mansard = defineRoof({
  id: 'mansard',
  title: 'Mansard',
  summary: 'A steep lower and a flatter upper slope over every side of a rectangle or a measured plan.',
  alsoCalled: ['French', 'curb', 'attic'],
  params: [...rectangleParams, footprintParam, ...twoPitchParams],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: (values) => {
    const { width = 0, depth = 0, corners } = values;
    if (corners) {
      // The highest point lies as far in from its sides as slopes of one to one are high there.
      const run = evenRise(corners);
      if (!run.ok) return run;
      const over = breakSlope(values, run.value);
      return over.ok ? raiseEvenly(corners, over.value) : over;
    }
    const slope = breakSlope(values, Math.min(width, depth) / 2);
    if (!slope.ok) return slope;
    const bands = slope.value;
    return raiseRectangle({
      width,
      depth,
      bands: { south: bands, east: bands, north: bands, west: bands },
      walls: [],
      body: null,
    });
  },
  examples: [
    { title: 'Custom master', shape: { width: 116, depth: 84, rise: 44, breakRise: 30, lowerPitch: 70 } },
    { title: 'Hotel Samphire', shape: { width: 92, depth: 92, rise: 52, breakRise: 34, lowerPitch: 74 } },
  ],
});
