import { distance3, quarterTurns, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { titleCase } from '../solid/compass.ts';
import { SNAP_MM } from '../tolerance.ts';
import { addEndWalls, type WallLine } from './construct/end-walls.ts';
import { winds } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, rectangleParams, rectangleWithEave } from './outline.ts';

/** Two gable roofs that cross. */
export const crossGable = defineRoof({
  id: 'cross-gable',
  title: 'Cross-gable',
  summary:
    'Two gable roofs that cross, over a rectangle or a cross: a gable on each of its four sides, and four valleys.',
  alsoCalled: ['crosspitched', 'cross gabled', 'groin', 'four gables'],
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'wingWidth',
      label: 'Wing width',
      help: 'Eave to eave of the roof that runs from front to back.',
      quantity: 'length',
      min: 3,
      max: 2000,
      default: 40,
    },
    {
      key: 'wingRise',
      label: 'Wing rise',
      help: 'From the eave to the ridge of that roof; as the ridge that it crosses unless said otherwise.',
      quantity: 'length',
      min: 1,
      max: 2000,
      optional: true,
    },
    {
      key: 'mainDepth',
      label: 'Main depth',
      help: 'Eave to eave of the roof from left to right, where the wing stands out beyond it; as the depth unless said otherwise.',
      quantity: 'length',
      min: 3,
      max: 2000,
      optional: true,
    },
    endsParam,
  ],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: (values, body) => {
    const { width = 0, depth = 0, wingWidth = 0, wingRise, mainDepth = depth, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    if (wingWidth - width > SNAP_MM) return fail(wingTooWide(wingWidth, width));
    if (mainDepth - depth > SNAP_MM) return fail(mainTooDeep(mainDepth, depth));
    const rise = riseFrom(values, mainDepth / 2);
    if (!rise.ok) return rise;
    if (wingRise !== undefined && wingRise - rise.value > SNAP_MM) return fail(wingTooHigh(wingRise, rise.value));
    const main: Arm = { length: width, span: mainDepth, rise: rise.value };
    const wing: Arm = { length: depth, span: wingWidth, rise: wingRise ?? rise.value };
    const slopes = crossSlopes(main, wing);
    if (ends === 'open') return succeed(buildSolid(slopes));
    const size: Vec2 = [
      Math.min(width, body?.rectangle?.width ?? width),
      Math.min(depth, body?.rectangle?.depth ?? depth),
    ];
    const { faces, abutments } = addEndWalls(slopes, gableLines(main, wing, size));
    return succeed(buildSolid(faces, abutments));
  },
  examples: [
    { title: 'Corn exchange', shape: { width: 112, depth: 78, pitch: 42, wingWidth: 52 } },
    {
      title: 'Seamen’s mission',
      shape: { width: 120, depth: 96, rise: 36, wingWidth: 40, wingRise: 28, mainDepth: 66 },
    },
    { title: 'Toll house', shape: { width: 64, depth: 64, rise: 34, wingWidth: 64 } },
  ],
});

/** One of the two roofs: along its ridge, eave to eave across it, and how high, mm. */
interface Arm {
  readonly length: number;
  readonly span: number;
  readonly rise: number;
}

/**
 * Slopes of two crossing gable roofs, `high` with its ridge along x, `low` across it and no higher. Where the ridges are level with each other, the slopes of `high` end in their crossing.
 */
function crossSlopes(high: Arm, low: Arm): readonly FaceDraft[] {
  const isLevel = high.rise - low.rise <= SNAP_MM;
  const [end, side, out, half] = [high.length / 2, high.span / 2, low.length / 2, low.span / 2];
  // The lower ridge meets the higher slope where that has come up to its level.
  const meet: Vec3 = isLevel ? [0, 0, high.rise] : [0, -side * (1 - low.rise / high.rise), low.rise];
  return [0, 2].flatMap((turn): FaceDraft[] => {
    const wind = (i: number): string => winds[(i + turn) % 4] as string;
    const place = ([x, y, z]: Vec3): Vec3 => [...quarterTurns([x, y], turn), z] as Vec3;
    const draft = (id: string, title: string, points: readonly Vec3[]): FaceDraft => ({
      id,
      title: titleCase(title),
      part: 'slope',
      side: id,
      points: points.filter((p, i) => distance3(p, points.at(i - 1) as Vec3) > SNAP_MM).map(place),
    });
    const [left, right]: readonly [Vec3, Vec3] = [
      [-half, -side, 0],
      [half, -side, 0],
    ];
    const leftEnd: readonly Vec3[] = [
      [-end, 0, high.rise],
      [-end, -side, 0],
    ];
    const rightEnd: readonly Vec3[] = [
      [end, -side, 0],
      [end, 0, high.rise],
    ];
    const [south, east, , west] = [0, 1, 2, 3].map(wind) as [string, string, string, string];
    const gable: Vec3 = [0, -out, low.rise];
    return [
      ...(isLevel
        ? [
            draft(`${south}-${west}`, `${south} slope, ${west} part`, [...leftEnd, left, meet]),
            draft(`${south}-${east}`, `${south} slope, ${east} part`, [right, ...rightEnd, meet]),
          ]
        : [draft(south, `${south} slope`, [...leftEnd, left, meet, right, ...rightEnd])]),
      draft(`${south}-wing-${west}`, `${south} wing, ${west} slope`, [[-half, -out, 0], gable, meet, left]),
      draft(`${south}-wing-${east}`, `${south} wing, ${east} slope`, [gable, [half, -out, 0], right, meet]),
    ];
  });
}

/**
 * Lines of the four gables on a body of this size. They are as long as the roof is higher over them than at the corners of
 * the body, where it comes to rest.
 */
function gableLines(main: Arm, wing: Arm, [width, depth]: Vec2): readonly WallLine[] {
  const foot = Math.max(0, main.rise * (1 - depth / main.span), wing.rise * (1 - width / wing.span));
  return winds.flatMap((id, i): WallLine[] => {
    const [arm, away] = i % 2 === 0 ? [wing, depth / 2] : [main, width / 2];
    const half = (arm.span / 2) * (1 - foot / arm.rise);
    if (half <= 0) return [];
    const [from, to] = [quarterTurns([-half, -away], i), quarterTurns([half, -away], i)];
    return [{ id: `${id}-gable`, title: `${titleCase(id)} gable`, from, to }];
  });
}

const wingTooWide = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'wing-too-wide',
  path: 'shape.wingWidth',
  numbers: { found, most },
  message: 'A wing {found} wide is wider than the roof it crosses.',
  remedy: 'Keep it at {most} or under, or make the roof wider.',
});

const wingTooHigh = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'wing-too-high',
  path: 'shape.wingRise',
  numbers: { found, most },
  message: 'A wing {found} high is higher than the ridge of {most} that it crosses.',
  remedy:
    'Keep it at {most} or under, or turn the roof by a quarter, so that the higher ridge runs from left to right.',
});

const mainTooDeep = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'main-too-deep',
  path: 'shape.mainDepth',
  numbers: { found, most },
  message: 'The roof from left to right is {found} deep, deeper than the whole.',
  remedy: 'Keep it at {most} or under, or make the roof deeper.',
});
