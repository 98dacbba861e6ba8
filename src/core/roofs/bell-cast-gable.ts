import { fail, succeed } from '../issue.ts';
import { UPRIGHT } from './construct/raise-roof.ts';
import { bandsBy, raiseRectangle, ridgeWinds } from './construct/rectangle-roof.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams, ridgeParam } from './outline.ts';

/** A gable roof whose slopes flare out at the eave. */
export const bellCastGable = defineRoof({
  id: 'bell-cast-gable',
  title: 'Bell-cast gable',
  summary: 'A gable roof whose two slopes flare out flatter towards the eave.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed'],
  params: [...rectangleParams, riseParam, ...curvedFlareParams, ridgeParam, endsParam],
  hasVerge: true,
  outlineFromBody: (body, overhang, { ridge }) => gableFromBody(body, overhang, ridge),
  build: (values, body) => {
    const { width = 0, depth = 0, ridge, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const slope = flareSlope(values, (ridge === 'along-depth' ? width : depth) / 2);
    if (!slope.ok) return slope;
    const winds = ridgeWinds(ridge);
    const bands = bandsBy(winds, slope.value.bands, [{ level: 0, pitch: UPRIGHT }]);
    const built = raiseRectangle({ width, depth, bands, walls: ends === 'open' ? [] : winds.ends, body });
    return built.ok ? succeed(built.value, curveNote(slope.value.off, values)) : built;
  },
  examples: [
    { title: 'Dyke reeve', shape: { width: 98, depth: 76, rise: 42, flareRise: 8, flarePitch: 26 } },
    {
      title: 'Weigh house',
      shape: { width: 70, depth: 92, rise: 48, flareRise: 18, flarePitch: 20, flareSteps: 4, ridge: 'along-depth' },
    },
  ],
});
