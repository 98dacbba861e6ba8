import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';

/** Four slopes of one pitch over a rectangle. */
export const hip = defineRoof({
  id: 'hip',
  title: 'Hip',
  summary: 'Four slopes of one pitch over a rectangle; the two longer ones meet in a ridge.',
  params: [...rectangleParams, ...heightParams],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0 } = values;
    const run = Math.min(width, depth) / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const slope = [{ level: 0, pitch: Math.atan2(rise.value, run) }];
    return raiseRectangle({
      width,
      depth,
      bands: { south: slope, east: slope, north: slope, west: slope },
      walls: [],
      body: null,
    });
  },
  examples: [
    { title: 'Harbour office', shape: { width: 128, depth: 74, pitch: 38 } },
    { title: 'Ice house', shape: { width: 66, depth: 102, rise: 31 } },
  ],
});
