import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';
import { breakSlope, twoPitchParams } from './two-pitches.ts';

/** Two pitches on all four sides. */
export const mansard = defineRoof({
  id: 'mansard',
  title: 'Mansard',
  summary: 'Four sides over a rectangle, each with a steep lower and a flatter upper slope.',
  alsoCalled: ['French', 'curb', 'attic'],
  params: [...rectangleParams, ...twoPitchParams],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0 } = values;
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
