import { succeed } from '../issue.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { evenRise, footprintParam, planWithEave, raiseEvenly } from './measured-plan.ts';
import { rectangleParams } from './outline.ts';

/** A hip roof whose slopes flare out at the eave. */
export const bellCastHip = defineRoof({
  id: 'bell-cast-hip',
  title: 'Bell-cast hip',
  summary: 'A hip roof whose slopes flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed'],
  params: [...rectangleParams, footprintParam, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: (values) => {
    const { width = 0, depth = 0, corners } = values;
    // The highest point lies as far in from its sides as slopes of one to one are high there.
    const run = corners ? evenRise(corners) : succeed(Math.min(width, depth) / 2);
    if (!run.ok) return run;
    const slope = flareSlope(values, run.value);
    if (!slope.ok) return slope;
    const { bands, off } = slope.value;
    const built = corners
      ? raiseEvenly(corners, bands)
      : raiseRectangle({
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
