import { fail, type Issue } from '../issue.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { MOST_SHARE, pitchParam, riseParam } from './height.ts';
import { evenRise, footprintParam, planWithEave, raiseEvenly } from './measured-plan.ts';
import { rectangleParams } from './outline.ts';

/** Slopes cut off level. */
export const frustum = defineRoof({
  id: 'frustum',
  title: 'Frustum',
  summary: 'Slopes of one pitch over a rectangle or a measured plan that end in a flat top.',
  alsoCalled: ['truncated', 'cut off', 'deck', 'terrace'],
  params: [
    ...rectangleParams,
    footprintParam,
    riseParam,
    pitchParam('pitch', 'Pitch', 'How steep the slopes are; the size of the top follows.', 60),
  ],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: ({ width = 0, depth = 0, corners, rise = 0, pitch = 0 }) => {
    if (corners) {
      const even = evenRise(corners);
      if (!even.ok) return even;
      const highest = MOST_SHARE * even.value * Math.tan(pitch);
      return rise > highest ? fail(noTop(rise, highest)) : raiseEvenly(corners, [{ level: 0, pitch }], rise);
    }
    const most = (MOST_SHARE * Math.min(width, depth) * Math.tan(pitch)) / 2;
    if (rise > most) return fail(noTop(rise, most));
    const slope = [{ level: 0, pitch }];
    return raiseRectangle({
      width,
      depth,
      bands: { south: slope, east: slope, north: slope, west: slope },
      top: rise,
      walls: [],
      body: null,
    });
  },
  examples: [
    { title: 'Lantern deck', shape: { width: 66, depth: 66, rise: 24, pitch: 52 } },
    { title: 'Signal platform', shape: { width: 94, depth: 70, rise: 30, pitch: 64 } },
  ],
});

export const noTop = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'no-top',
  path: 'shape.rise',
  numbers: { found, most },
  message: 'At this pitch the slopes meet before they are {found} high, so there is no flat top.',
  remedy: 'Keep the rise at {most} or under, or make the pitch steeper.',
});
