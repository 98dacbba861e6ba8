import type { Vec2 } from '../geometry/vector.ts';
import { fail, hasError, type Result, succeed } from '../issue.ts';
import type { Solid } from '../solid/solid.ts';
import { raisePeak } from './construct/peak-roof.ts';
import { raiseRectangle } from './construct/rectangle-roof.ts';
import { type CurvedFlare, curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { centroid, checkPeakInSight, depthsInside, footprintParam, planWithEave } from './measured-plan.ts';
import { rectangleParams } from './outline.ts';

/** A pyramid whose slopes flare out at the eave. */
export const bellCastPyramid = defineRoof({
  id: 'bell-cast-pyramid',
  title: 'Bell-cast pyramid',
  summary: 'A pyramid whose sides flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed', 'witch hat'],
  params: [...rectangleParams, footprintParam, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: planWithEave,
  build: (values) => {
    const { width = 0, depth = 0, corners } = values;
    if (corners) return flareOver(corners, values);
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

/** The peak stands over the middle of the area; every side has its own pitch above the flare. */
function flareOver(corners: readonly Vec2[], values: CurvedFlare): Result<Solid> {
  const peak = centroid(corners);
  const depths = depthsInside(corners, peak);
  const hidden = checkPeakInSight(depths);
  if (hidden.length > 0) return fail(...hidden);
  // The nearest side has the least room for a flare.
  const nearest = flareSlope(values, Math.min(...depths));
  if (!nearest.ok) return nearest;
  const slopes = depths.map((depth) => flareSlope(values, depth));
  const issues = slopes.flatMap((slope) => slope.issues);
  if (hasError(issues)) return fail(...issues);
  const made = slopes.flatMap((slope) => (slope.ok ? [slope.value] : []));
  const built = raisePeak({ corners, peak: [...peak, values.rise ?? 0], bands: made.map(({ bands }) => bands) });
  return built.ok ? succeed(built.value, curveNote(Math.max(...made.map(({ off }) => off)), values)) : built;
}
