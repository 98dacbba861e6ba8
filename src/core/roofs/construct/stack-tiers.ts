import { restHeight } from '../../fit/rest.ts';
import { at } from '../../geometry/polygon.ts';
import { add2, distance3, length2, lerp2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { fail, type Result, succeed } from '../../issue.ts';
import type { AbutmentDraft, FaceDraft } from '../../solid/build-solid.ts';
import { titleCase, windOf } from '../../solid/compass.ts';
import type { Solid } from '../../solid/solid.ts';
import { isPositive, NOISE_MM, SNAP_MM } from '../../tolerance.ts';
import { type Passing, passingsOver, withCorner } from './end-walls.ts';
import { stackRound } from './stack-round.ts';
import { upperTooSmall, wallOnCurve, wallSticksOut } from './tier-issues.ts';
import { checkTiers, draftsOf, joinTiers, type Tiers } from './tiers.ts';

/** A stretch of a wall line under or over one face, by distance along the line and level at both ends. */
interface Stretch {
  readonly face: FaceDraft;
  readonly start: Vec2;
  readonly end: Vec2;
  /** The wall and this face share an edge there. */
  readonly isShared: boolean;
}

/**
 * A roof, a wall standing on it and a second roof on the wall. The lower roof stays whole: the foot of the wall follows its
 * slopes. The head of the wall follows the underside of the upper roof, which comes to rest on it as on a body; where the
 * upper roof has end walls of its own, the wall ends at their foot.
 */
export function stackTiers(tiers: Tiers): Result<Solid> {
  const { lower, wall, upper } = tiers;
  if (wall.isRound) return stackRound(tiers);
  const below = draftsOf(lower, 'lower', 0);
  const lines = wall.outline.map((from, i) => ({ from, to: at(wall.outline, i + 1) }));
  const feet = lines.map(({ from, to }) =>
    profile(passingsOver(slopesOf(below.faces), { ...noName, from, to }).map(notShared), length2(sub2(to, from)), 1),
  );
  if (!feet.every((foot) => foot !== null)) return fail(isRolled(lower) ? wallOnCurve : wallSticksOut);
  const standsAt = Math.max(...feet.flat().flatMap(({ start, end }) => [start[1], end[1]]));
  const head = standsAt + wall.height;
  const above = draftsOf(upper, 'upper', restHeight(upper, { ...wall, height: head }));
  const heads = lines.map(({ from, to }) => {
    const line = { ...noName, from, to };
    const passings = passingsOver(slopesOf(above.faces), line).map(freelyShared(upper, above.faces, line));
    return profile([...passings, ...wallFeet(above.faces, line)], length2(sub2(to, from)), -1);
  });
  if (!heads.every((one) => one !== null)) return fail(isRolled(upper) ? wallOnCurve : upperTooSmall);
  const rolled = [...feet.flat(), ...heads.flat()].find(({ face }) => face.roll);
  if (rolled) return fail(wallOnCurve);
  const checked = checkTiers(tiers, above);
  if (!checked.ok) return checked;

  const names = wallNames(wall.outline);
  const walls: FaceDraft[] = [];
  const abutments: AbutmentDraft[] = [...below.abutments, ...above.abutments];
  const shared: Vec3[] = [];
  lines.forEach(({ from, to }, i) => {
    const along = unit2(sub2(to, from));
    const place = ([s, z]: Vec2): Vec3 => [...add2(from, scale2(along, s)), z] as Vec3;
    const { id, title } = names[i] as (typeof names)[number];
    const points: Vec3[] = [];
    for (const { face, start, end } of feet[i] as readonly Stretch[]) {
      points.push(place(start), place(end));
      abutments.push({ wall: id, slope: face.id, ends: [place(start), place(end)] });
    }
    for (const { face, start, end, isShared } of (heads[i] as readonly Stretch[]).toReversed()) {
      points.push(place(end), place(start));
      if (isShared) shared.push(place(end), place(start));
      else abutments.push({ wall: id, slope: face.id, ends: [place(end), place(start)] });
    }
    const loop = points.filter((p, k) => isPositive(distance3(p, at(points, k + 1))));
    walls.push({ id, title, part: 'wall', side: id, points: loop });
  });
  const upperFaces = above.faces.map((face) => ({
    ...face,
    points: shared.reduce<readonly Vec3[]>(withCorner, face.points),
  }));
  return succeed(joinTiers(tiers, [...below.faces, ...walls, ...upperFaces], abutments));
}

const isRolled = ({ faces }: Solid): boolean => faces.some((face) => face.roll);

const noName = { id: '', title: '' };

const slopesOf = (faces: readonly FaceDraft[]): readonly FaceDraft[] => faces.filter(({ part }) => part === 'slope');

/** On the lower roof a wall meets the slope on its inner side, edge or not. */
const notShared = (passing: Passing): Passing => ({ ...passing, isShared: false });

/** Under the upper roof a wall shares an edge only where no other face runs along it. */
function freelyShared(
  upper: Solid,
  faces: readonly FaceDraft[],
  { from, to }: { readonly from: Vec2; readonly to: Vec2 },
): (passing: Passing) => Passing {
  const along = unit2(sub2(to, from));
  const open = upper.edges.flatMap(({ ends, faces: own }) => {
    const [a, b] = ends.map((v): Vec2 => {
      const [x, y] = sub2(plan(upper.vertices[v] as Vec3), from);
      return [along[0] * x + along[1] * y, along[0] * y - along[1] * x];
    }) as [Vec2, Vec2];
    const isOnLine = Math.abs(a[1]) <= SNAP_MM && Math.abs(b[1]) <= SNAP_MM;
    return own.length === 1 && isOnLine ? [{ id: faces[own[0] as number]?.id, from: a[0], to: b[0] }] : [];
  });
  return (passing) => {
    const middle = (passing.start[0] + passing.end[0]) / 2;
    const isOpen = open.some((edge) => edge.id === passing.slope.id && edge.from <= middle && middle <= edge.to);
    return { ...passing, isShared: passing.isShared && passing.isInside && isOpen };
  };
}

const plan = ([x, y]: Vec3): Vec2 => [x, y];

/** The feet of upright faces of the upper roof that stand on this line. */
function wallFeet(
  faces: readonly FaceDraft[],
  { from, to }: { readonly from: Vec2; readonly to: Vec2 },
): readonly Passing[] {
  const along = unit2(sub2(to, from));
  return faces
    .filter(({ part }) => part === 'wall')
    .flatMap((wall) => {
      const lowest = Math.min(...wall.points.map((p) => p[2]));
      // The passing of the foot alone: a face that has no more than its lowest edge.
      const foot = wall.points.flatMap((p, i): (readonly [Vec3, Vec3])[] => {
        const q = at(wall.points, i + 1);
        return p[2] - lowest <= SNAP_MM && q[2] - lowest <= SNAP_MM ? [[p, q]] : [];
      });
      return foot.flatMap(([p, q]): Passing[] => {
        const [a, b] = [sub2([p[0], p[1]], from), sub2([q[0], q[1]], from)];
        const aside = ([x, y]: Vec2): number => along[0] * y - along[1] * x;
        const ahead = ([x, y]: Vec2): number => along[0] * x + along[1] * y;
        if (Math.abs(aside(a)) > SNAP_MM || Math.abs(aside(b)) > SNAP_MM || ahead(a) >= ahead(b)) return [];
        return [{ slope: wall, start: [ahead(a), p[2]], end: [ahead(b), q[2]], isShared: true, isInside: true }];
      });
    });
}

/**
 * The highest (`way` 1) or lowest (-1) of the faces over a line of this length, from its start to its end without a gap; null
 * where nothing is over part of it.
 */
function profile(passings: readonly Passing[], length: number, way: 1 | -1): readonly Stretch[] | null {
  const places = [0, length, ...passings.flatMap(({ start, end }) => [start[0], end[0]])]
    .filter((s) => s >= -SNAP_MM && s <= length + SNAP_MM)
    .sort((a, b) => a - b)
    .filter((s, i, all) => i === 0 || s - (all[i - 1] as number) > SNAP_MM);
  const stretches: Stretch[] = [];
  for (const [i, from] of places.slice(0, -1).entries()) {
    const to = places[i + 1] as number;
    const middle = (from + to) / 2;
    const over = passings.filter(({ start, end }) => start[0] <= middle && middle <= end[0]);
    const best = over.reduce<Passing | null>((kept, one) => {
      if (!kept) return one;
      const higher = way * (levelAt(one, middle) - levelAt(kept, middle));
      if (Math.abs(higher) > NOISE_MM) return higher > 0 ? one : kept;
      // Of two faces along one edge: the one it is shared with, or that lies over the inside.
      return rankOf(one) > rankOf(kept) ? one : kept;
    }, null);
    if (!best) return null;
    const before = stretches.at(-1);
    const piece: Stretch = {
      face: best.slope,
      isShared: best.isShared,
      start: [from, levelAt(best, from)],
      end: [to, levelAt(best, to)],
    };
    if (before?.face === best.slope && before.isShared === best.isShared) {
      stretches[stretches.length - 1] = { ...before, end: piece.end };
    } else stretches.push(piece);
  }
  return stretches;
}

const rankOf = ({ isShared, isInside }: Passing): number => (isShared ? 2 : 0) + (isInside ? 1 : 0);

function levelAt({ start, end }: Pick<Passing, 'start' | 'end'>, s: number): number {
  if (Math.abs(s - start[0]) <= SNAP_MM) return start[1];
  if (Math.abs(s - end[0]) <= SNAP_MM) return end[1];
  return lerp2(start, end, (s - start[0]) / (end[0] - start[0]))[1];
}

/** Walls by the wind they face; where two face the same one they are numbered. */
function wallNames(outline: readonly Vec2[]): readonly { readonly id: string; readonly title: string }[] {
  const winds = outline.map((p, i) => {
    const [x, y] = sub2(at(outline, i + 1), p);
    return windOf(y, -x);
  });
  return winds.map((wind, i) => {
    const isAlone = winds.filter((other) => other === wind).length === 1;
    const name = isAlone ? wind : `${i + 1}`;
    return { id: `wall-${name}`, title: isAlone ? `${titleCase(wind)} wall` : `Wall ${name}` };
  });
}
