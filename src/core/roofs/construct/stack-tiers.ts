import { crossing, levelsOver, restHeight, slopeFacets } from '../../fit/rest.ts';
import { at } from '../../geometry/polygon.ts';
import { add2, distance3, length2, lerp2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../../issue.ts';
import type { Body } from '../../project/project.ts';
import { type AbutmentDraft, buildSolid, type FaceDraft } from '../../solid/build-solid.ts';
import { titleCase, windOf } from '../../solid/compass.ts';
import { edgePath, type Solid } from '../../solid/solid.ts';
import { isPositive, NOISE_MM, SNAP_MM } from '../../tolerance.ts';
import { type Passing, passingsOver, withCorner } from './end-walls.ts';

export interface Tiers {
  readonly lower: Solid;
  /** Its height counts from the highest point at which it stands on the lower roof. */
  readonly wall: Body;
  readonly upper: Solid;
}

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
export function stackTiers({ lower, wall, upper }: Tiers): Result<Solid> {
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
  const lowest = Math.min(...above.faces.flatMap(({ points }) => points.map((p) => p[2])));
  if (lowest < -NOISE_MM) return fail(upperHangsLow(-lowest));
  const through = reachThrough(lower, upper, above.level);
  if (through > NOISE_MM) return fail(tiersMeet(through));

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
  const stacked = buildSolid([...below.faces, ...walls, ...upperFaces], abutments);
  const overhangs = lower.overhangs ?? (upper.overhangs && 'above');
  return succeed(overhangs ? { ...stacked, overhangs } : stacked);
}

const isRolled = ({ faces }: Solid): boolean => faces.some((face) => face.roll);

const noName = { id: '', title: '' };

/** The faces and abutments of a tier as drafts, its ids and titles after the tier, its eave plane at this level. */
function draftsOf(
  { vertices, faces, edges }: Solid,
  tier: 'lower' | 'upper',
  level: number,
): { readonly faces: readonly FaceDraft[]; readonly abutments: readonly AbutmentDraft[]; readonly level: number } {
  const place = (v: number): Vec3 => {
    const [x, y, z] = vertices[v] as Vec3;
    return [x, y, z + level];
  };
  const nameOf = (id: string): string => `${tier}-${id}`;
  /** Corners of a face that only sample a curve. */
  const sampled = (face: number): ReadonlySet<number> =>
    new Set(edges.flatMap((edge) => (edge.faces.includes(face) ? (edge.via ?? []) : [])));
  return {
    level,
    faces: faces.map(({ loop, ...face }, f) => ({
      ...face,
      samples: loop.flatMap((v, i) => (sampled(f).has(v) ? [i] : [])),
      id: nameOf(face.id),
      side: nameOf(face.side),
      title: `${titleCase(tier)} ${face.title.charAt(0).toLowerCase()}${face.title.slice(1)}`,
      points: loop.map(place),
    })),
    abutments: edges.flatMap((edge): AbutmentDraft[] => {
      const [a, b] = edge.faces.map((f) => faces[f]);
      if (edge.role !== 'abutment' || !a || !b) return [];
      const path = edgePath(edge).map(place);
      return path.slice(1).map((end, i) => ({ wall: nameOf(a.id), slope: nameOf(b.id), ends: [at(path, i), end] }));
    }),
  };
}

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

/**
 * How far the lower roof comes up through the upper one, mm; 0 or under where it stays below. Both are flat between their
 * edges, so that it does so most at a corner of one of them or where an edge of one crosses an edge of the other in plan.
 */
function reachThrough(lower: Solid, upper: Solid, level: number): number {
  const segments = ({ vertices, edges }: Solid): (readonly [Vec2, Vec2])[] =>
    edges.map(({ ends: [a, b] }) => [plan(vertices[a] as Vec3), plan(vertices[b] as Vec3)]);
  const others = segments(upper);
  const places = [
    ...lower.vertices.map(plan),
    ...upper.vertices.map(plan),
    ...segments(lower).flatMap(([p, q]) =>
      others.flatMap(([a, b]) => {
        const place = crossing(p, q, a, b);
        return place ? [place] : [];
      }),
    ),
  ];
  const [under, above] = [slopeFacets(lower), slopeFacets(upper)];
  return Math.max(
    0,
    ...places.map((place) => {
      const [own, over] = [levelsOver(under, place), levelsOver(above, place)];
      return own.length === 0 || over.length === 0 ? 0 : Math.max(...own) - level - Math.min(...over);
    }),
  );
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

const wallSticksOut: Issue = {
  level: 'error',
  code: 'wall-sticks-out',
  path: 'shape.wall',
  message: 'The wall does not stand on the lower roof all round.',
  remedy: 'Make the wall smaller than the lower roof, or the lower roof larger.',
};

const upperTooSmall: Issue = {
  level: 'error',
  code: 'upper-too-small',
  path: 'shape.upper',
  message: 'The upper roof does not cover the wall all round.',
  remedy: 'Give it an overhang, or a larger outline.',
};

const upperHangsLow = (by: number): Issue => ({
  level: 'error',
  code: 'upper-hangs-low',
  path: 'shape.upper',
  numbers: { by },
  message: 'The upper roof hangs {by} below the eave of the lower one.',
  remedy: 'Make the wall higher by that, or the overhang of the upper roof smaller.',
});

const wallOnCurve: Issue = {
  level: 'error',
  code: 'wall-on-curve',
  path: 'shape.wall',
  message: 'The wall meets a rolled panel, along which it cannot be cut straight.',
  remedy: 'Take roofs of flat panels, or let the wall stand on a level top.',
};

const tiersMeet = (by: number): Issue => ({
  level: 'error',
  code: 'tiers-meet',
  path: 'shape.wall',
  numbers: { by },
  message: 'The lower roof comes {by} through the upper one.',
  remedy: 'Make the wall higher by that, the lower roof flatter, or the overhang of the upper roof smaller.',
});
