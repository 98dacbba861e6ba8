import { succeed } from '../issue.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';

/** A pyramid whose slopes flare out at the eave. */
export const bellCastPyramid = defineRoof({
  id: 'bell-cast-pyramid',
  title: 'Bell-cast pyramid',
  summary: 'A pyramid whose four sides flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed', 'witch hat'],
  params: [...rectangleParams, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values) => {
    const { width = 0, depth = 0 } = values;
    // Each side has its own pitch above the flare, so that all four meet in one peak over any rectangle.
    const [front, side] = [flareSlope(values, depth / 2), flareSlope(values, width / 2)];
    if (!front.ok) return front;
    if (!side.ok) return side;
    const [along, across] = [front.value.bands, side.value.bands];
    const built = raiseRectangle({
      width,
      depth,
      bands: { south: along, east: across, north: along, west: across },
      walls: [],
      body: null,
    });
    return built.ok ? succeed(built.value, curveNote(Math.max(front.value.off, side.value.off), values)) : built;
  },
  examples: [
    { title: 'Pilot tower', shape: { width: 70, depth: 70, rise: 78, flareRise: 7, flarePitch: 30 } },
    { title: 'Dovecote', shape: { width: 84, depth: 66, rise: 52, flareRise: 5, flarePitch: 24 } },
    { title: 'Tide bell', shape: { width: 64, depth: 64, rise: 72, flareRise: 20, flarePitch: 22, flareSteps: 6 } },
  ],
});
