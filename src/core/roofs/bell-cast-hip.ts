import { succeed } from '../issue.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';

/** A hip roof whose slopes flare out at the eave. */
export const bellCastHip = defineRoof({
  id: 'bell-cast-hip',
  title: 'Bell-cast hip',
  summary: 'A hip roof whose four slopes flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed'],
  params: [...rectangleParams, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0 } = values;
    const slope = flareSlope(values, Math.min(width, depth) / 2);
    if (!slope.ok) return slope;
    const { bands, off } = slope.value;
    const built = raiseRectangle({
      width,
      depth,
      bands: { south: bands, east: bands, north: bands, west: bands },
      walls: [],
      body: null,
    });
    return built.ok ? succeed(built.value, curveNote(off, values)) : built;
  },
  examples: [
    { title: 'Tea merchant', shape: { width: 118, depth: 82, rise: 40, flareRise: 7, flarePitch: 24 } },
    {
      title: 'Harbour master',
      shape: { width: 96, depth: 74, rise: 44, flareRise: 16, flarePitch: 18, flareSteps: 5 },
    },
  ],
});
