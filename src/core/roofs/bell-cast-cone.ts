import { roofSteps } from '../geometry/arc.ts';
import { succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { type Circle, coneFace, halves } from './construct/rolled.ts';
import { curvedFlareParams, curveNote, flareSlope } from './curved-flare.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { circleWithEave, diameterParam } from './round.ts';

/** A cone on one or more flatter cone frusta. */
export const bellCastCone = defineRoof({
  id: 'bell-cast-cone',
  title: 'Bell-cast cone',
  summary: 'A cone that flares out flatter towards the eave, rolled in two parts or more.',
  alsoCalled: ['bellcast', 'flared', 'sprocketed', 'witch hat'],
  params: [diameterParam, riseParam, ...curvedFlareParams],
  hasVerge: false,
  outlineFromBody: circleWithEave,
  build: (values) => {
    const { diameter = 0, rise = 0 } = values;
    const slope = flareSlope(values, diameter / 2);
    if (!slope.ok) return slope;
    const { bands, off } = slope.value;
    const circles: Circle[] = [{ radius: diameter / 2, z: 0 }];
    for (const [i, { level, pitch }] of bands.entries()) {
      const below = circles.at(-1) as Circle;
      const z = bands[i + 1]?.level;
      circles.push(
        z === undefined ? { radius: 0, z: rise } : { radius: below.radius - (z - level) / Math.tan(pitch), z },
      );
    }
    const steps = roofSteps(diameter / 2, Math.PI);
    const solid = buildSolid(
      bands.flatMap((_, band) =>
        halves.map(({ id, title, ...azimuths }) => {
          const isTop = band === bands.length - 1;
          const name = isTop ? { id, title } : { id: `${id}-${band + 1}`, title: `${title}, ring ${band + 1}` };
          const [low, high] = [circles[band] as Circle, circles[band + 1] as Circle];
          return coneFace({ ...name, part: 'slope', side: 'round' }, azimuths, low, high, steps);
        }),
      ),
    );
    return succeed(solid, curveNote(off, values));
  },
  examples: [
    { title: 'Pigeon tower', shape: { diameter: 76, rise: 82, flareRise: 7, flarePitch: 30 } },
    { title: 'Mill cap', shape: { diameter: 98, rise: 54, flareRise: 6, flarePitch: 22 } },
  ],
});
