import { at } from '../../geometry/polygon.ts';
import { dot2, length2, sub2, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../../issue.ts';
import { buildSolid, type FaceDraft } from '../../solid/build-solid.ts';
import type { Solid } from '../../solid/solid.ts';
import { SNAP_MM } from '../../tolerance.ts';
import { addEndWalls, type WallLine } from './end-walls.ts';
import { buildSkeleton } from './skeleton/build-skeleton.ts';

/** From this level on a side is so steep, radians; a quarter turn is upright. */
export interface Band {
  readonly level: number;
  readonly pitch: number;
}

/** The roof over one eave edge. */
export interface RoofSide {
  readonly id: string;
  readonly title: string;
  /** From the eave up, the first at level 0. Upright from the start: a gable end. */
  readonly bands: readonly Band[];
}

export interface RoofOutline {
  /** Eave outline counter-clockwise, then courts clockwise; not closed. mm, z = 0. */
  readonly rings: readonly (readonly Vec2[])[];
  /** One side for each edge, ring after ring. */
  readonly sides: readonly RoofSide[];
  /** The roof ends in a flat top at this level, mm. */
  readonly top?: number;
  /** Walls under the slopes at upright sides; without them the slopes end in open verges. */
  readonly walls: readonly WallLine[];
  /** Walls of the body that the roof rests on, as rings like those of the outline: end walls reach down to its top. */
  readonly seat?: readonly (readonly Vec2[])[];
}

export const UPRIGHT: number = Math.PI / 2;

/** Slopes raised from an eave outline, each side with its own pitches, until they meet: a straight skeleton made solid. */
export function raiseRoof({ rings, sides, top, walls, seat = [] }: RoofOutline): Result<Solid> {
  const skeleton = buildSkeleton({
    rings,
    profiles: sides.map(({ bands }) => bands.map(({ level, pitch }) => ({ level, speed: runPerRise(pitch) }))),
    ...(top === undefined ? {} : { cap: top }),
  });
  if (!skeleton) return fail(noRoof);
  // A band may come to lie in several parts, and so may a flat top.
  const taken = new Map<string, number>();
  const numbered = (name: string): string => {
    const count = (taken.get(name) ?? 0) + 1;
    taken.set(name, count);
    return count === 1 ? name : `${name}-part-${count}`;
  };
  const drafts = skeleton.faces.flatMap(({ edge, stage, loop }): FaceDraft[] => {
    const points = loop.map((node) => skeleton.nodes[node] as Vec3);
    const side = sides[edge];
    if (!side) return [{ id: numbered('top'), title: 'Top', part: 'slope', side: 'top', points }];
    const isUpright = (side.bands[stage]?.pitch ?? 0) >= UPRIGHT;
    // A gable end from the eave up is open, or closed by a wall on the body; higher up it is a panel of the roof.
    if (isUpright && stage === 0) return [];
    return [
      {
        id: numbered(stage === 0 ? side.id : `${side.id}-band-${stage + 1}`),
        title: stage === 0 ? side.title : `${side.title}, band ${stage + 1}`,
        part: isUpright ? 'wall' : 'slope',
        side: side.id,
        points: withoutRepeats(points),
      },
    ];
  });
  const eaves = rings.flatMap((ring) => ring.map((p, i) => [p, at(ring, i + 1)] as const));
  const inside = skeleton.faces.find(
    ({ edge, stage, loop }) =>
      stage === 0 &&
      isGable(sides[edge]) &&
      runsPast(
        eaves[edge] as Eave,
        loop.map((n) => skeleton.nodes[n] as Vec3),
      ),
  );
  if (inside) return fail(gableInside((sides[inside.edge] as RoofSide).title));
  const seats = seat.flatMap((ring) =>
    ring.map((p, i): WallLine => ({ id: '', title: '', from: p, to: at(ring, i + 1) })),
  );
  const { faces, abutments } = addEndWalls(drafts, walls, seats);
  return succeed(buildSolid(faces, abutments));
}

type Eave = readonly [Vec2, Vec2];

const isGable = (side: RoofSide | undefined): boolean => (side?.bands[0]?.pitch ?? 0) >= UPRIGHT;

/** Whether an upright face goes on beyond its side, along its line into the building. */
function runsPast([from, to]: Eave, points: readonly Vec3[]): boolean {
  const along = sub2(to, from);
  const length = length2(along);
  const reach = points.map(([x, y]) => dot2(sub2([x, y], from), along) / length);
  return Math.min(...reach) < -SNAP_MM || Math.max(...reach) > length + SNAP_MM;
}

const gableInside = (title: string): Issue => ({
  level: 'error',
  code: 'gable-inside',
  path: 'shape.pitches',
  message: `${title}: beside a corner that points inwards a gable would run on over the roof of the other wing.`,
  remedy: 'Give this side a pitch, or make the gable at an outer end.',
});

const runPerRise = (pitch: number): number => (pitch >= UPRIGHT ? 0 : 1 / Math.tan(pitch));

const withoutRepeats = (points: readonly Vec3[]): Vec3[] =>
  points.filter((p, i) => {
    const q = at(points, i - 1);
    return p[0] !== q[0] || p[1] !== q[1] || p[2] !== q[2];
  });

const noRoof: Issue = {
  level: 'error',
  code: 'no-roof',
  path: 'shape',
  message: 'The slopes over this outline never meet.',
  remedy: 'Give at least two sides that face each other a pitch, or end the roof in a flat top.',
};
