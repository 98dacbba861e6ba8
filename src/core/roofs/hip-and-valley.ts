import { type Plan, ringsOf, standOut } from '../footprint/offset.ts';
import { type SideName, sideNames } from '../footprint/sides.ts';
import { at } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Body, SidePitches } from '../project/project.ts';
import { titleCase } from '../solid/compass.ts';
import type { Solid } from '../solid/solid.ts';
import type { WallLine } from './construct/end-walls.ts';
import { raiseRoof, UPRIGHT } from './construct/raise-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, steepness } from './height.ts';
import { evenPitch, needsCorners } from './measured-plan.ts';
import { endsParam } from './outline.ts';

/** Slopes from every side of any outline, each at its own pitch or a gable where wanted. */
export const hipAndValley = defineRoof({
  id: 'hip-and-valley',
  title: 'Hip and valley',
  summary: 'Slopes from every side of any outline, with courts or without, each at one pitch, its own, or a gable.',
  alsoCalled: ['L-shaped', 'T-shaped', 'U-shaped', 'courtyard', 'polygon', 'any outline', 'cross hip', 'intersecting'],
  params: [
    {
      key: 'corners',
      label: 'Eave outline',
      help: 'By its corners, or by the lengths of its sides.',
      quantity: 'footprint',
      outline: true,
    },
    {
      key: 'courts',
      label: 'Courts',
      help: 'Open courts inside the outline, each by its corners; none unless said otherwise.',
      quantity: 'courts',
      outline: true,
      optional: true,
    },
    ...heightParams,
    {
      key: 'pitches',
      label: 'Sides of their own',
      help: 'A pitch or a gable for single sides, by the wind that each faces; as the others unless said otherwise.',
      quantity: 'side-pitches',
      ...steepness,
      optional: true,
    },
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, { eave, verge }, { pitches = {} }) => {
    if (body.isRound) return fail(needsCorners);
    const plan = planOf(body);
    const distances = sideNames(ringsOf(plan)).map(({ id }) => (pitches[id] === 'gable' ? verge : eave));
    const out = standOut(plan, distances);
    if (!out.ok) return out;
    const { corners, courts } = out.value;
    return succeed(courts ? { corners, courts } : { corners });
  },
  build: (values, body) => {
    const { corners = [], courts, pitches = {}, ends } = values;
    const plan: Plan = { corners, courts };
    const names = sideNames(ringsOf(plan));
    const wrong = [...checkSides(names, pitches), ...checkHeight(values, pitches)];
    if (wrong.length > 0) return fail(...wrong);
    const raise = (pitch: number, walls: readonly WallLine[] = []): Result<Solid> =>
      raiseRoof({
        rings: ringsOf(plan),
        sides: names.map(({ id, title }) => ({
          id,
          title: walls.length > 0 ? `${title} slope` : title,
          bands: [{ level: 0, pitch: pitches[id] === 'gable' ? UPRIGHT : (pitches[id] ?? pitch) }],
        })),
        walls,
        ...(body ? { seat: ringsOf(planOf(body)) } : {}),
      });
    const pitch = evenPitch(values, raise);
    if (!pitch.ok) return pitch;
    const gables = (id: string): boolean => ends !== 'open' && pitches[id] === 'gable';
    return raise(
      pitch.value,
      wallsUnder(plan, body, names).filter(({ id }) => gables(id)),
    );
  },
  examples: [
    {
      title: 'Customs house',
      shape: {
        lengths: [96, 44, 52, 40, 44, 84],
        angles: [90, 90, 270, 90, 90],
        pitch: 38,
        pitches: { east: 'gable' },
      },
    },
    {
      title: 'Warehouse court',
      shape: {
        corners: [
          [0, 0],
          [130, 0],
          [130, 104],
          [0, 104],
        ],
        courts: [
          [
            [42, 38],
            [88, 38],
            [88, 66],
            [42, 66],
          ],
        ],
        rise: 16,
      },
    },
    {
      title: 'Chandlery corner',
      shape: {
        corners: [
          [0, 0],
          [74, -6],
          [92, 52],
          [30, 70],
          [-8, 40],
        ],
        pitch: 42,
        pitches: { north: 55 },
      },
    },
  ],
});

const planOf = ({ outline, courts }: Body): Plan => ({ corners: outline, courts });

/** A wall for every side: on the body where its plan goes with the outline side by side, otherwise on the outline. */
function wallsUnder(plan: Plan, body: Body | null, names: readonly SideName[]): readonly WallLine[] {
  const own = ringsOf(plan);
  const under = body ? ringsOf(planOf(body)) : own;
  const isAlike = under.length === own.length && under.every((ring, r) => ring.length === own[r]?.length);
  return (isAlike ? under : own).flatMap((ring, r) => {
    const before = own.slice(0, r).flat().length;
    return ring.map((from, i): WallLine => {
      const { id, title } = names[before + i] as SideName;
      return { id, title: `${titleCase(title)} gable`, from, to: at(ring, i + 1) as Vec2 };
    });
  });
}

function checkSides(names: readonly SideName[], pitches: SidePitches): readonly Issue[] {
  const ids = names.map(({ id }) => id);
  return Object.keys(pitches)
    .filter((id) => !ids.includes(id))
    .map(
      (id): Issue => ({
        level: 'error',
        code: 'no-such-side',
        path: `shape.pitches.${id}`,
        message: `This outline has no side "${id}".`,
        remedy: `Its sides are ${ids.join(', ')}.`,
      }),
    );
}

/** Slopes of several pitches do not all grow with the rise, so that it says too little. */
function checkHeight({ pitch }: { readonly pitch?: number }, pitches: SidePitches): readonly Issue[] {
  const hasOwn = Object.values(pitches).some((own) => own !== 'gable');
  return pitch === undefined && hasOwn ? [pitchNeeded] : [];
}

const pitchNeeded: Issue = {
  level: 'error',
  code: 'pitch-needed',
  path: 'shape.pitches',
  message: 'Where sides have pitches of their own, the rise or slant does not say how steep the others are.',
  remedy: 'Give the pitch instead, or leave out the single pitches; gables may stay.',
};
