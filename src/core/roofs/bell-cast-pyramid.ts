import { fail, type Issue } from '../issue.ts';
import type { Band } from './construct/raise-roof.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { checkLevel, MOST_SHARE, pitchParam, riseParam } from './height.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';

/** A pyramid whose slopes flare out at the eave. */
export const bellCastPyramid = defineRoof({
  id: 'bell-cast-pyramid',
  title: 'Bell-cast pyramid',
  summary: 'A pyramid whose four sides flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed', 'witch hat'],
  params: [
    ...rectangleParams,
    riseParam,
    {
      key: 'flareRise',
      label: 'Flare rise',
      help: 'From the eave to where the steep part begins.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 6,
    },
    pitchParam('flarePitch', 'Flare pitch', 'How steep the eave is; the pitch above follows.', 28),
  ],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: ({ width = 0, depth = 0, rise = 0, flareRise = 0, flarePitch = 0 }) => {
    const tooHigh = checkLevel(flareRise, rise, 'flareRise');
    if (tooHigh.length > 0) return fail(...tooHigh);
    const flare = flareRise / Math.tan(flarePitch);
    const room = (MOST_SHARE * Math.min(width, depth)) / 2;
    if (flare > room) return fail(flareTooWide(flareRise, room * Math.tan(flarePitch)));
    // Each side has its own pitch above the flare, so that all four meet in one peak over any rectangle.
    const side = (across: number): readonly Band[] => [
      { level: 0, pitch: flarePitch },
      { level: flareRise, pitch: Math.atan2(rise - flareRise, across / 2 - flare) },
    ];
    return raiseRectangle({
      width,
      depth,
      bands: { south: side(depth), east: side(width), north: side(depth), west: side(width) },
      walls: [],
      body: null,
    });
  },
  examples: [
    { title: 'Pilot tower', shape: { width: 70, depth: 70, rise: 78, flareRise: 7, flarePitch: 30 } },
    { title: 'Dovecote', shape: { width: 84, depth: 66, rise: 52, flareRise: 5, flarePitch: 24 } },
  ],
});

const flareTooWide = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'flare-too-wide',
  path: 'shape.flareRise',
  numbers: { found, most },
  message: 'At the pitch of the flare the sides meet before they are {found} high.',
  remedy: 'Keep the flare at {most} or under, or make it steeper.',
});
