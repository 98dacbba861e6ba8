import type { Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { type AbutmentDraft, buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { titleCase, windOf } from '../solid/compass.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { rectangleFromBody, rectangleParams } from './outline.ts';

/** Two slopes that meet in a level ridge, with end walls under it or open ends. */
export const gable = defineRoof({
  id: 'gable',
  title: 'Gable',
  summary: 'Two slopes that meet in a level ridge; the ends are upright walls or left open.',
  params: [
    ...rectangleParams,
    ...heightParams,
    {
      key: 'ridge',
      label: 'Ridge',
      help: 'Which way the ridge runs.',
      quantity: 'choice',
      default: 'along-width',
      choices: [
        { value: 'along-width', label: 'Along the width' },
        { value: 'along-depth', label: 'Along the depth' },
      ],
    },
    {
      key: 'ends',
      label: 'Gable ends',
      help: 'End walls as panels of the roof, flush with the body, or no end walls.',
      quantity: 'choice',
      default: 'walls',
      choices: [
        { value: 'walls', label: 'Walls' },
        { value: 'open', label: 'Open' },
      ],
    },
  ],
  hasVerge: true,
  outlineFromBody: (body, { eave, verge }, { ridge }) =>
    ridge === 'along-depth' ? rectangleFromBody(body, eave, verge) : rectangleFromBody(body, verge, eave),
  build: (values, body) => {
    const { width = 0, depth = 0, ridge, ends } = values;
    if (body && !body.rectangle && ends !== 'open') return fail(wallsNeedRectangle);
    const turned = ridge === 'along-depth';
    const [length, span] = turned ? [depth, width] : [width, depth];
    const rise = riseFrom(values, span / 2);
    if (!rise.ok) return rise;
    const under = body?.rectangle ?? { width, depth };
    const [wallLength, wallSpan] = turned ? [under.depth, under.width] : [under.width, under.depth];
    return buildGable({
      length,
      span,
      rise: rise.value,
      // A body wider than the roof is reported by the fit; the walls then stand at the outline.
      eave: Math.max(0, (span - wallSpan) / 2),
      verge: Math.max(0, (length - wallLength) / 2),
      turned,
      walls: ends !== 'open',
    });
  },
  examples: [
    { title: 'Net loft', shape: { width: 92, depth: 58, pitch: 47 } },
    { title: 'Chapel nave', shape: { width: 64, depth: 110, rise: 55, ridge: 'along-depth' } },
    { title: 'Open boat shed', shape: { width: 120, depth: 76, slant: 52, ends: 'open' } },
  ],
});

interface GableSizes {
  readonly length: number;
  readonly span: number;
  readonly rise: number;
  /** How far the slopes stand out from the walls, plan size. */
  readonly eave: number;
  readonly verge: number;
  /** Ridge from front to back instead of left to right. */
  readonly turned: boolean;
  readonly walls: boolean;
}

function buildGable({ length, span, rise, eave, verge, turned, walls }: GableSizes): Result<Solid> {
  const u = length / 2;
  const v = span / 2;
  // Drawn with the ridge along x; a quarter turn counter-clockwise lays it along y.
  const place = (x: number, y: number, z: number): Vec3 => (turned ? [0 - y, x, z] : [x, y, z]);
  const facing = (x: number, y: number): string => (turned ? windOf(-y, x) : windOf(x, y));
  /** Where the slope's underside passes over the body's wall. */
  const footLevel = (eave / v) * rise;
  const isFlush = walls && !isPositive(verge);
  const splitsVerge = isFlush && isPositive(eave);
  const foot = v - eave;

  const slopes = ([-1, 1] as const).map((s): FaceDraft => {
    const side = facing(0, s);
    const right = place(-s * u, s * foot, footLevel);
    const left = place(s * u, s * foot, footLevel);
    return {
      id: side,
      title: `${titleCase(side)} slope`,
      part: 'slope',
      side,
      points: [
        place(s * u, s * v, 0),
        place(-s * u, s * v, 0),
        ...(splitsVerge ? [right] : []),
        place(-s * u, 0, rise),
        place(s * u, 0, rise),
        ...(splitsVerge ? [left] : []),
      ],
    };
  });
  if (!walls) return succeed(buildSolid(slopes));

  const ends = ([1, -1] as const).map((e) => {
    const x = e * (u - verge);
    const side = facing(e, 0);
    const [start, end, top] = [place(x, -e * foot, footLevel), place(x, e * foot, footLevel), place(x, 0, rise)];
    const wall: FaceDraft = {
      id: side,
      title: `${titleCase(side)} gable`,
      part: 'wall',
      side,
      points: [start, end, top],
    };
    const abutments: AbutmentDraft[] = isFlush
      ? []
      : [
          { wall: side, slope: facing(0, e), ends: [end, top] },
          { wall: side, slope: facing(0, -e), ends: [top, start] },
        ];
    return { wall, abutments };
  });
  return succeed(
    buildSolid(
      [
        slopes[0] as FaceDraft,
        (ends[0] as { wall: FaceDraft }).wall,
        slopes[1] as FaceDraft,
        (ends[1] as { wall: FaceDraft }).wall,
      ],
      ends.flatMap((end) => end.abutments),
    ),
  );
}

const wallsNeedRectangle: Issue = {
  level: 'error',
  code: 'body-not-rectangular',
  path: 'body',
  message: 'The end walls stand on the body, so it has to be rectangular; this one is a regular polygon.',
  remedy: 'Give the body a width and a depth, or leave the gable ends open.',
};
