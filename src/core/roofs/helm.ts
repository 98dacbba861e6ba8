import { quarterTurns, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { fail, succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { titleCase } from '../solid/compass.ts';
import { addEndWalls } from './construct/end-walls.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, squareParam, squareWithEave } from './outline.ts';

const winds = ['south', 'east', 'north', 'west'] as const;
const diagonals = ['south-east', 'north-east', 'north-west', 'south-west'] as const;

/** Four rhombic panels over a square, each from a corner past two gables to the peak. */
export const helm = defineRoof({
  id: 'helm',
  title: 'Helm',
  summary:
    'Four gables on a square tower, and four rhombic panels from its corners to the peak, twice as high as the gables.',
  alsoCalled: ['rhombic', 'steeple', 'church'],
  params: [squareParam, ...heightParams, endsParam],
  hasVerge: false,
  outlineFromBody: squareWithEave,
  build: (values, body) => {
    const { width = 0, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const half = width / 2;
    const rise = riseFrom(values, half * Math.SQRT2);
    if (!rise.ok) return rise;
    const gable = rise.value / 2;
    const slopes = diagonals.map((id, i): FaceDraft => {
      const place = ([x, y]: Vec2, z: number): Vec3 => {
        const [u, v] = quarterTurns([x, y], i);
        return [u, v, z];
      };
      return {
        id,
        title: titleCase(id),
        part: 'slope',
        side: id,
        points: [place([half, -half], 0), place([half, 0], gable), [0, 0, rise.value], place([0, -half], gable)],
      };
    });
    if (ends === 'open') return succeed(buildSolid(slopes));
    const x = Math.min(width, body?.rectangle?.width ?? width) / 2;
    const y = Math.min(width, body?.rectangle?.depth ?? width) / 2;
    const corners: readonly Vec2[] = [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ];
    const lines = winds.map((id, i) => ({
      id,
      title: `${titleCase(id)} gable`,
      from: corners[i] as Vec2,
      to: corners[(i + 1) % 4] as Vec2,
    }));
    const { faces, abutments } = addEndWalls(slopes, lines);
    return succeed(buildSolid(faces, abutments));
  },
  examples: [
    { title: 'Watch house', shape: { width: 58, rise: 104 } },
    { title: 'Ferry tower', shape: { width: 72, pitch: 62 } },
  ],
});
