import type { Vec2 } from '../geometry/vector.ts';
import { succeed } from '../issue.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { apothemFrom, regularParams, regularWithEave, sidesParam, USUAL_SIDES } from './regular.ts';

/** A spire whose sides flare out at the eave, at one pitch or in a curve. */
export const bellCastSpire = defineRoof({
  id: 'bell-cast-spire',
  title: 'Bell-cast spire',
  summary: 'A spire of 3 to 24 sides that flare out flatter towards the eave, straight or in a curve.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed', 'witch hat', 'steeple', 'turret'],
  params: [sidesParam, ...regularParams, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: regularWithEave,
  build: (values) => {
    const { sides = USUAL_SIDES, rise = 0 } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const slope = flareSlope(values, apothem.value);
    if (!slope.ok) return slope;
    const { bands, off } = slope.value;
    const profile: Vec2[] = [[apothem.value, 0]];
    bands.slice(1).forEach(({ level }, i) => {
      const [reach, below] = profile[i] as Vec2;
      profile.push([reach - (level - below) / Math.tan(bands[i]?.pitch ?? 0), level]);
    });
    return succeed(raiseRegular(sides, [...profile, [0, rise]]), curveNote(off, values));
  },
  examples: [
    { title: 'Harbour light', shape: { sides: 8, acrossFlats: 70, rise: 88, flareRise: 8, flarePitch: 30 } },
    {
      title: 'Quay kiosk',
      shape: { sides: 6, side: 33, rise: 62, flareRise: 15, flarePitch: 22, flareSteps: 4 },
    },
  ],
});
