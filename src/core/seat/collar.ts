import { levelsOver, slopeFacets } from '../fit/rest.ts';
import { sideNames } from '../footprint/sides.ts';
import { at } from '../geometry/polygon.ts';
import { distance2, lerp2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { passingsOver } from '../roofs/construct/end-walls.ts';
import { rollUnder } from '../roofs/construct/fascia.ts';
import type { FaceDraft } from '../solid/build-solid.ts';
import type { Solid } from '../solid/solid.ts';
import { isAtMost, isPositive, ROLL_MM, SNAP_MM } from '../tolerance.ts';
import { addEdge, addVertex, type GrowingSolid } from './grow-solid.ts';

/** The ring that a collar is bent to: mm in plan, counter-clockwise. */
export interface CollarPlan {
  readonly corners: readonly Vec2[];
  /** The corners sample a circle, in a number that four divides. */
  readonly isRound: boolean;
}

/** Where the upper edge of one side of a collar meets a face: points in the direction of the plan. */
interface Stretch {
  readonly path: readonly Vec3[];
  readonly host: number;
}

/** One side of a collar, its plan path and what its upper edge meets in order. */
interface CollarSide {
  readonly plan: readonly Vec2[];
  readonly top: readonly Stretch[];
}

/**
 * The sides of a collar with their upper edges along the underside of the roof. Under flat slopes every side follows them; a
 * round collar needs a round roof over it, which it meets at one level all the way.
 */
export function collarUnderSlopes(solid: Solid, { corners, isRound }: CollarPlan): Result<readonly CollarSide[]> {
  return isRound ? roundSides(solid, corners) : straightSides(solid, corners);
}

/** The sides of a collar under a level face. */
export const collarUnderPlate = (
  { corners, isRound }: CollarPlan,
  plate: number,
  level: number,
): readonly CollarSide[] =>
  (isRound ? quarters(corners) : straights(corners)).map((plan) => ({
    plan,
    top: [{ path: plan.map(([x, y]): Vec3 => [x, y, level]), host: plate }],
  }));

const straights = (corners: readonly Vec2[]): readonly (readonly Vec2[])[] =>
  corners.map((p, i) => [p, at(corners, i + 1)]);

/** Over more than a quarter of a circle the middle of a side would lie far from its paper. */
const quarters = (corners: readonly Vec2[]): readonly (readonly Vec2[])[] => {
  const count = corners.length / 4;
  return [0, 1, 2, 3].map((q) => Array.from({ length: count + 1 }, (_, i) => at(corners, q * count + i)));
};

function straightSides(solid: Solid, corners: readonly Vec2[]): Result<readonly CollarSide[]> {
  const slopes = solid.faces.flatMap(({ part, loop, roll }, f): FaceDraft[] =>
    part === 'slope' && !roll
      ? [{ id: String(f), title: '', part, side: '', points: loop.map((v) => solid.vertices[v] as Vec3) }]
      : [],
  );
  const sides: CollarSide[] = [];
  for (const plan of straights(corners)) {
    const [from, to] = plan as [Vec2, Vec2];
    const length = distance2(from, to);
    const place = ([s, z]: Vec2): Vec3 => [...lerp2(from, to, s / length), z] as Vec3;
    const all = passingsOver(slopes, { id: '', title: '', from, to });
    const levelAt = ({ start, end }: (typeof all)[number], s: number): number =>
      lerp2(start, end, (s - start[0]) / (end[0] - start[0]))[1];
    // Where one roof lies over another the collar stands under the lower one; along a ridge one of both slopes will do.
    const lowest = all.filter((one, i) => {
      const s = (one.start[0] + one.end[0]) / 2;
      return all.every((other, j) => {
        if (other === one || s < other.start[0] || s > other.end[0]) return true;
        const [own, others] = [levelAt(one, s), levelAt(other, s)];
        return isPositive(others - own) || (!isPositive(own - others) && i < j);
      });
    });
    const covered = lowest.reduce((reach, { start, end }) => (isAtMost(start[0] - SNAP_MM, reach) ? end[0] : reach), 0);
    if (covered < length - SNAP_MM) {
      const isRolled = solid.faces.some(({ part, roll }) => part === 'slope' && roll);
      return fail(isRolled ? needsPlate : outsideRoof);
    }
    sides.push({
      plan,
      top: lowest.map(({ slope, start, end }) => ({ path: [place(start), place(end)], host: Number(slope.id) })),
    });
  }
  return succeed(sides);
}

function roundSides(solid: Solid, corners: readonly Vec2[]): Result<readonly CollarSide[]> {
  const facets = slopeFacets(solid);
  const levels = corners.map((p) => Math.min(...levelsOver(facets, p)));
  if (!levels.every(Number.isFinite)) return fail(outsideRoof);
  const level = Math.min(...levels);
  // The facets of a round roof keep within the sampling of its surface.
  const isLevel = Math.max(...levels) - level <= 4 * ROLL_MM;
  const sides = quarters(corners).map((plan): CollarSide | null => {
    const [x, y] = at(plan, Math.floor(plan.length / 2));
    const hosts = solid.faces.flatMap(({ roll, part, loop }, f) => {
      if (!roll || part !== 'slope') return [];
      const own = slopeFacets({ ...solid, faces: [{ ...(solid.faces[f] as Solid['faces'][number]), loop }] });
      return levelsOver(own, [x, y]).some((z) => Math.abs(z - level) <= 4 * ROLL_MM) ? [f] : [];
    });
    const [host] = hosts;
    return host === undefined ? null : { plan, top: [{ path: plan.map(([a, b]): Vec3 => [a, b, level]), host }] };
  });
  const found = sides.filter((side) => side !== null);
  return isLevel && found.length === sides.length ? succeed(found) : fail(needsPlate);
}

/** Adds the walls of a collar down to a level foot; the indices of its faces. */
export function addCollar(solid: GrowingSolid, sides: readonly CollarSide[], foot: number): readonly number[] {
  const first = solid.vertices.length;
  const names = sideNames([sides.map(({ plan }) => plan[0] as Vec2)]);
  const walls = sides.map(({ plan, top }, i) => {
    const low = plan.map(([x, y]) => addVertex(solid, first, [x, y, foot]));
    const high = top.map(({ path }) => path.map((p) => addVertex(solid, first, p)));
    const along = high.flat().filter((v, k, all) => v !== all[k - 1]);
    const { id, title } = names[i] as (typeof names)[number];
    const isRolled = plan.length > 2;
    const arc = (top[0] as Stretch).path;
    const face =
      solid.faces.push({
        id: `collar-${id}`,
        title: `Collar ${title.toLowerCase()}`,
        part: 'wall',
        side: `collar-${id}`,
        loop: [...low, ...along.toReversed()],
        ...(isRolled ? { roll: rollUnder(arc, (arc[0] as Vec3)[2] - foot, ROLL_MM) } : {}),
      }) - 1;
    return { face, low, high, along, top };
  });
  walls.forEach(({ face, low, high, along, top }, i) => {
    const next = at(walls, i + 1);
    addEdge(solid, low, [face], 'foot');
    const corner = [low.at(-1) as number, along.at(-1) as number];
    const turn = cornerTurn(sides, i);
    addEdge(solid, corner, [face, next.face], turn >= 0 ? 'hip' : 'valley');
    high.forEach((path, k) => {
      addEdge(solid, path.toReversed(), [face, (top[k] as Stretch).host], 'abutment');
      const [end, start] = [path.at(-1) as number, high[k + 1]?.[0]];
      // A step in the underside leaves an upright edge.
      if (start !== undefined && start !== end) addEdge(solid, [start, end], [face], 'verge');
    });
  });
  return walls.map(({ face }) => face);
}

/** Over 0 where the collar turns left from one side to the next. */
function cornerTurn(sides: readonly CollarSide[], i: number): number {
  const [a, b] = at(sides, i).plan.slice(-2) as [Vec2, Vec2];
  const [, c] = at(sides, i + 1).plan as readonly [Vec2, Vec2];
  const turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
  return Math.abs(turn) <= SNAP_MM ? 0 : turn;
}

const outsideRoof: Issue = {
  level: 'error',
  code: 'seat-outside-roof',
  path: 'seat',
  message: 'The collar of the seat stands out beyond the roof in plan.',
  remedy: 'Let the roof stand out farther over the body, or let the collar go inside it.',
};

const needsPlate: Issue = {
  level: 'error',
  code: 'seat-needs-plate',
  path: 'seat',
  message:
    'Here the collar would meet the slopes only at some points: a round collar needs a round roof over its middle, and a straight one flat slopes.',
  remedy: 'Give the seat a plate ("plate": true) for its collar to stand on.',
};
