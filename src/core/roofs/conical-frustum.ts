import { roofSteps } from '../geometry/arc.ts';
import { fail, succeed } from '../issue.ts';
import { buildSolid } from '../solid/build-solid.ts';
import { coneFace, discFace, halves } from './construct/rolled.ts';
import { defineRoof } from './definition.ts';
import { noTop } from './frustum.ts';
import { MOST_SHARE, pitchParam, riseParam } from './height.ts';
import { circleWithEave, diameterParam } from './round.ts';

/** A cone cut off level, rolled from part of a ring. */
export const conicalFrustum = defineRoof({
  id: 'conical-frustum',
  title: 'Conical frustum',
  summary: 'A round roof of one pitch that ends in a flat round top.',
  alsoCalled: ['truncated cone', 'drum'],
  params: [diameterParam, riseParam, pitchParam('pitch', 'Pitch', 'How steep it is; the size of the top follows.', 60)],
  hasVerge: false,
  outlineFromBody: circleWithEave,
  build: ({ diameter = 0, rise = 0, pitch = 0 }) => {
    const radius = diameter / 2;
    const most = MOST_SHARE * radius * Math.tan(pitch);
    if (rise > most) return fail(noTop(rise, most));
    const top = { radius: radius - rise / Math.tan(pitch), z: rise };
    const steps = roofSteps(radius, Math.PI);
    return succeed(
      buildSolid([
        ...halves.map(({ id, title, ...azimuths }) =>
          coneFace({ id, title, part: 'slope', side: 'round' }, azimuths, { radius, z: 0 }, top, steps),
        ),
        discFace({ id: 'top', title: 'Top', part: 'slope', side: 'top' }, top, halves, steps),
      ]),
    );
  },
  examples: [
    { title: 'Beacon platform', shape: { diameter: 74, rise: 28, pitch: 62 } },
    { title: 'Capstan house', shape: { diameter: 110, rise: 22, pitch: 35 } },
  ],
});
