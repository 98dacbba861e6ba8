import { roofSteps } from '../geometry/arc.ts';
import { succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { coneFace, halves } from './construct/rolled.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { circleWithEave, diameterParam } from './round.ts';

/** A right circular cone, rolled from a sector of the slant's radius and 360° times radius over slant. */
export const cone = defineRoof({
  id: 'cone',
  title: 'Cone',
  summary: 'A round roof that rises to one peak, rolled from a single sector with no folds.',
  alsoCalled: ['tented', 'witch hat', 'conical'],
  params: [diameterParam, ...heightParams],
  hasVerge: false,
  outlineFromBody: circleWithEave,
  build: (values) => {
    const radius = (values.diameter ?? 0) / 2;
    const rise = riseFrom(values, radius);
    if (!rise.ok) return rise;
    const steps = roofSteps(radius, Math.PI);
    return succeed(
      buildSolid(
        halves.map(({ id, title, ...azimuths }) =>
          coneFace(
            { id, title, part: 'slope', side: 'round' },
            azimuths,
            { radius, z: 0 },
            { radius: 0, z: rise.value },
            steps,
          ),
        ),
      ),
    );
  },
  examples: [
    { title: 'Round lookout', shape: { diameter: 62, rise: 71 } },
    { title: 'Dovecote', shape: { diameter: 88, pitch: 38 } },
  ],
});
