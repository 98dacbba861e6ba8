import { roofSteps } from '../geometry/arc.ts';
import { quarterTurns, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { isPositive } from '../tolerance.ts';
import { type Arch, vaultFace } from './construct/rolled.ts';
import { addVaultWalls } from './construct/vault-walls.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams, ridgeParam } from './outline.ts';

/** A vault over an arch of a circle, rolled from a rectangle. */
export const barrel = defineRoof({
  id: 'barrel',
  title: 'Barrel',
  summary: 'A round vault over a rectangle, rolled from one rectangle, with arched ends.',
  alsoCalled: ['vault', 'round', 'wagon', 'arched'],
  params: [
    ...rectangleParams,
    { ...riseParam, help: 'From the eave up to the crown; half the span makes a half circle, less a flatter arch.' },
    ridgeParam,
    endsParam,
  ],
  hasVerge: true,
  outlineFromBody: (body, overhang, { ridge }) => gableFromBody(body, overhang, ridge),
  build: ({ width = 0, depth = 0, rise = 0, ridge, ends }, body) => {
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const isTurned = ridge === 'along-depth';
    const [length, span] = isTurned ? [depth, width] : [width, depth];
    if (rise > span / 2) return fail(archTooHigh(rise, span / 2));
    const under = body?.rectangle ?? { width, depth };
    const [wallLength, wallSpan] = isTurned ? [under.depth, under.width] : [under.width, under.depth];
    const radius = (span * span) / (8 * rise) + rise / 2;
    const half = Math.asin(Math.min(1, span / 2 / radius));
    // The walls end in the arch where the body's sides stand.
    const inner = Math.asin(Math.min(span, wallSpan) / 2 / radius);
    const arch: Arch = { radius, centre: rise - radius, angles: sampled([-half, -inner, inner, half], radius) };
    const vault = vaultFace({ id: 'barrel', title: 'Barrel', part: 'slope', side: 'barrel' }, arch, length / 2);
    const { faces, abutments } =
      ends === 'open'
        ? { faces: [vault], abutments: [] }
        : addVaultWalls(vault, { arch, inner, half: length / 2, wall: Math.min(length, wallLength) / 2 }, isTurned);
    // A turned ridge runs to the north, so that the east slope of the arch looks to the west.
    const turned = (face: FaceDraft): FaceDraft => ({ ...face, points: face.points.map(quarter) });
    const drafts = isTurned ? faces.map(turned) : faces;
    const met = isTurned
      ? abutments.map(({ ends: [a, b], ...rest }) => ({ ...rest, ends: [quarter(a), quarter(b)] as const }))
      : abutments;
    return succeed(buildSolid(drafts, met));
  },
  examples: [
    { title: 'Ice store', shape: { width: 96, depth: 62, rise: 27 } },
    { title: 'Boat shelter', shape: { width: 70, depth: 110, rise: 18, ridge: 'along-depth' } },
  ],
});

const quarter = ([x, y, z]: Vec3): Vec3 => [...quarterTurns([x, y], 1), z] as Vec3;

/** Angles from the first to the last, each of the given ones among them, as near together as the radius asks. */
function sampled(stops: readonly number[], radius: number): readonly number[] {
  const angles = [stops[0] as number];
  stops.slice(1).forEach((stop, i) => {
    const from = stops[i] as number;
    if (!isPositive((stop - from) * radius)) return;
    const steps = roofSteps(radius, stop - from);
    for (let k = 1; k <= steps; k++) angles.push(from + ((stop - from) * k) / steps);
  });
  return angles;
}

const archTooHigh = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'arch-too-high',
  path: 'shape.rise',
  numbers: { found, most },
  message: 'A rise of {found} is more than half the span, so the arch would lean out over its eaves.',
  remedy: 'Keep it at {most} or under.',
});
