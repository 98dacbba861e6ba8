import { roofSteps } from '../geometry/arc.ts';
import { boxOf } from '../geometry/polygon.ts';
import { succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { coneFace } from './construct/rolled.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { backParam, diameterParam, halfCircleWithEave } from './round.ts';

/** Half a cone against a wall at its back. */
export const halfConeApse = defineRoof({
  id: 'half-cone-apse',
  title: 'Half-cone apse',
  summary: 'Half a cone that leans with its straight back against a wall.',
  alsoCalled: ['apsidal', 'chancel'],
  params: [diameterParam, ...heightParams, backParam],
  hasVerge: false,
  outlineFromBody: halfCircleWithEave,
  build: (values, body) => {
    const radius = (values.diameter ?? 0) / 2;
    const rise = riseFrom(values, radius);
    if (!rise.ok) return rise;
    const half = coneFace(
      { id: 'round', title: 'Half cone', part: 'slope', side: 'round' },
      { from: -Math.PI, to: 0 },
      { radius, z: 0 },
      { radius: 0, z: rise.value },
      roofSteps(radius, Math.PI),
    );
    const back: FaceDraft = {
      id: 'back',
      title: 'Back',
      part: 'wall',
      side: 'back',
      points: [
        [radius, 0, 0],
        [-radius, 0, 0],
        [0, 0, rise.value],
      ],
    };
    // The back is flush with that of the body; without one the middle of the plan is the origin, as with every kind.
    const wallAt = body ? boxOf(body.outline).maxY : radius / 2;
    const centred = (face: FaceDraft): FaceDraft => ({
      ...face,
      points: face.points.map(([x, y, z]) => [x, y + wallAt, z]),
    });
    return succeed(buildSolid((values.back === 'open' ? [half] : [half, back]).map(centred)));
  },
  examples: [
    { title: 'Chapel apse', shape: { diameter: 70, pitch: 48 } },
    { title: 'Oven house', shape: { diameter: 46, rise: 22, back: 'open' } },
  ],
});
