import { succeed } from '../issue.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { apothemFrom, regularParams, regularWithEave, sidesParam, USUAL_SIDES } from './regular.ts';

/** A regular pyramid of 3 to 24 panels, one of them facing south. */
export const spire = defineRoof({
  id: 'spire',
  title: 'Spire',
  summary: 'Equal panels on a regular plan of 3 to 24 sides that meet in one peak over its middle.',
  alsoCalled: ['steeple', 'turret', 'tented'],
  params: [sidesParam, ...regularParams, ...heightParams],
  hasVerge: false,
  outlineFromBody: regularWithEave,
  build: (values) => {
    const { sides = USUAL_SIDES } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const rise = riseFrom(values, apothem.value);
    if (!rise.ok) return rise;
    return succeed(
      raiseRegular(sides, [
        [apothem.value, 0],
        [0, rise.value],
      ]),
    );
  },
  examples: [
    { title: 'Light tower cap', shape: { sides: 8, acrossFlats: 58, rise: 84 } },
    { title: 'Chapel spire', shape: { sides: 6, side: 22, slant: 118 } },
    { title: 'Three-sided finial', shape: { sides: 3, side: 40, pitch: 60 } },
  ],
});
