import { fail, succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { titleCase } from '../solid/compass.ts';
import { winds } from './construct/rectangle-roof.ts';
import { stackRings } from './construct/rings.ts';
import { defineRoof } from './definition.ts';
import { checkFlare, flareParams } from './flare.ts';
import { riseParam } from './height.ts';
import { squareParam, squareWithEave } from './outline.ts';
import { regularCorners } from './regular.ts';

/** An eight-sided spire that turns into a square at its foot. */
export const splayFootSpire = defineRoof({
  id: 'splay-foot-spire',
  title: 'Splay-foot spire',
  summary:
    'An eight-sided spire on a square tower: four sides flare out to the eaves, the other four run out to points at its corners.',
  alsoCalled: ['splayed', 'steeple', 'church', 'octagon'],
  params: [squareParam, riseParam, ...flareParams],
  hasVerge: false,
  outlineFromBody: squareWithEave,
  build: ({ width = 0, rise = 0, flareRise = 0, flarePitch = 0 }) => {
    const half = width / 2;
    const unfit = checkFlare({ rise, flareRise, flarePitch, run: half });
    if (unfit.length > 0) return fail(...unfit);
    return succeed(
      buildSolid(
        stackRings({
          rings: [
            { level: 0, corners: regularCorners(4, half) },
            { level: flareRise, corners: regularCorners(8, half - flareRise / Math.tan(flarePitch)) },
            { level: rise, corners: [[0, 0]] },
          ],
          sides: winds.map((id) => ({ id, title: titleCase(id) })),
        }),
      ),
    );
  },
  examples: [
    { title: 'Mariners church', shape: { width: 60, rise: 142, flareRise: 19, flarePitch: 52 } },
    { title: 'Toll tower', shape: { width: 78, rise: 96, flareRise: 12, flarePitch: 40 } },
  ],
});
