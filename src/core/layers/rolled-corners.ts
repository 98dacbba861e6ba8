import { move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { add3, cross3, distance3, dot3, scale3, sub3, unit3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { faceFrame, frameMotion, normalAt, pointInFace } from '../solid/face-frame.ts';
import { bendPoint, type Roll, type RolledSurface } from '../solid/roll.ts';
import type { Edge, Face, Solid } from '../solid/solid.ts';
import { HAIR_MM, isPositive, NOISE_MM } from '../tolerance.ts';
import { type MovingPlane, meetAfter, threeOf } from './moving-plane.ts';
import type { Corner, OffsetMesh, Sector } from './offset-mesh.ts';

/** Most steps in which a corner on a rolled face is drawn to its place; each doubles the digits that are right. */
const STEPS = 40;

/** Radians round the axis from the middle ruling, of a point on the surface or on one parallel to it. */
const azimuthOf = (surface: RolledSurface, [x, y]: Vec2): number => {
  if (surface.form === 'cone') return Math.atan2(x, surface.apex - y) / surface.sine;
  return (surface.rulings === 'y' ? x : y) / surface.radius;
};

/** The flat point at another azimuth, as far along its ruling. */
function turnedTo(surface: RolledSurface, p: Vec2, azimuth: number): Vec2 {
  if (surface.form === 'cone') {
    const slant = Math.hypot(p[0], surface.apex - p[1]);
    const angle = azimuth * surface.sine;
    return [slant * Math.sin(angle), surface.apex - slant * Math.cos(angle)];
  }
  const across = azimuth * surface.radius;
  return surface.rulings === 'y' ? [across, p[1]] : [p[0], across];
}

/** A rolled face of the solid that is offset. */
interface Rolled {
  readonly face: number;
  readonly surface: RolledSurface;
}

const rolledAt = (solid: Solid, { rolled }: Sector): Rolled | null => {
  const roll = solid.faces[rolled?.face ?? -1]?.roll;
  return rolled && roll ? { face: rolled.face, surface: roll.surface } : null;
};

const toSpace = (solid: Solid, { face, surface }: Rolled, p: Vec2): Vec3 =>
  move3(frameMotion(faceFrame(solid, face)), bendPoint(surface, p, 1));

/** Where the paper's straight lines meet, whether the panel reaches there or not. */
const apexOf = (solid: Solid, rolled: Rolled): Vec3 =>
  toSpace(solid, rolled, [0, rolled.surface.form === 'cone' ? rolled.surface.apex : 0]);

/**
 * Where corners on rolled faces lie once every face has moved by `by` mm times its speed: the surfaces are parallel to what they were, so that
 * a plane that touches one along a ruling moves like that of a flat face. The samples of a curve share it out between its ends
 * as before.
 */
export function placeRolled(solid: Solid, mesh: OffsetMesh, by: number): ReadonlyMap<number, Vec3> {
  const places = new Map<number, Vec3>();
  const sampling = new Map<number, Edge>();
  for (const edge of solid.edges) for (const v of edge.via ?? []) if (!sampling.has(v)) sampling.set(v, edge);
  const onCurve: (readonly [number, Corner, Edge])[] = [];
  for (const [key, corner] of mesh.corners) {
    if (!corner.ring.some(({ rolled }) => rolled) || corner.ring.every(holds)) continue;
    const edge = sampling.get(corner.origins[0] as number);
    if (edge) onCurve.push([key, corner, edge]);
    else places.set(key, settle(solid, corner, by, null));
  }
  const placeOf = (v: number): Vec3 => {
    for (const [key, { origins }] of mesh.corners)
      if (origins.includes(v)) return places.get(key) ?? (solid.vertices[v] as Vec3);
    return solid.vertices[v] as Vec3;
  };
  const ends = new Map<Edge, readonly [Vec3, Vec3]>();
  for (const [key, corner, edge] of onCurve) {
    const rolled = corner.ring.map((sector) => rolledAt(solid, sector)).find((one) => one !== null);
    if (!rolled) continue;
    const moved = ends.get(edge) ?? [placeOf(edge.ends[0]), placeOf(edge.ends[1])];
    ends.set(edge, moved);
    const own = solid.vertices[corner.origins[0] as number] as Vec3;
    const azimuth = (p: Vec3): number => azimuthOf(rolled.surface, pointInFace(solid, rolled.face, p));
    const [a, b] = edge.ends.map((v) => azimuth(solid.vertices[v] as Vec3)) as [number, number];
    const [c, d] = moved.map(azimuth) as [number, number];
    const here = azimuth(own);
    // A full circle begins and ends on one ruling.
    const share = b === a ? 0 : (here - a) / (b - a);
    const target = isPositive(Math.abs(c - a) + Math.abs(d - b)) ? c + share * (d - c) : here;
    const flat = turnedTo(rolled.surface, pointInFace(solid, rolled.face, own), target);
    const on = toSpace(solid, rolled, flat);
    const normal = normalAt(solid.vertices, solid.faces[rolled.face] as Face, on);
    const axes = faceFrame(solid, rolled.face);
    const ruling =
      rolled.surface.form === 'cone'
        ? unit3(sub3(on, apexOf(solid, rolled)))
        : rolled.surface.rulings === 'x'
          ? axes.x
          : axes.y;
    places.set(key, settle(solid, corner, by, { plane: { normal: cross3(normal, ruling), speed: 0 }, through: on }));
  }
  return places;
}

/** Nothing of it moves. */
const holds = ({ plane, rolled }: Sector): boolean => (plane ?? rolled)?.speed === 0;

type Touched = NonNullable<Sector['rolled']>;

interface Placed {
  readonly plane: MovingPlane;
  readonly through: Vec3;
}

/** The point in which the moved planes of a corner and those that touch its rolled faces there meet. */
function settle(solid: Solid, { ring, origins }: Corner, by: number, third: Placed | null): Vec3 {
  const start = solid.vertices[origins[0] as number] as Vec3;
  let point = third?.through ?? start;
  let fixed: Placed | null = third;
  for (let step = 0; step < STEPS; step++) {
    const placed = ring.flatMap((sector): Placed[] => {
      if (sector.plane) return [{ plane: sector.plane, through: start }];
      const rolled = rolledAt(solid, sector);
      return rolled ? touching(solid, rolled, point, sector.rolled as Touched) : [];
    });
    const all = fixed ? [...placed, fixed] : placed;
    const three = threeOf(all.map(({ plane }) => plane)).map(
      (plane): Placed => all.find((one) => one.plane === plane) ?? { plane, through: start },
    ) as [Placed, Placed, Placed];
    fixed ??= three.find((one) => !all.includes(one)) ?? null;
    const away = meetAfter(
      three.map(({ plane }) => plane.normal) as [Vec3, Vec3, Vec3],
      three.map(({ plane, through }) => dot3(plane.normal, sub3(through, point)) + plane.speed * by) as [
        number,
        number,
        number,
      ],
    );

    if (!away) break;
    point = add3(point, away);
    // The next step would be a square of this one.
    if (!(Math.hypot(...away) >= HAIR_MM)) break;
  }
  return point;
}

/** The plane that touches a rolled face at the ruling of a point; at the peak of a cone three of them. */
function touching(solid: Solid, rolled: Rolled, point: Vec3, { side, speed }: Touched): Placed[] {
  const { face, surface } = rolled;
  const own = solid.faces[face] as Face;
  const isPeak = surface.form === 'cone' && distance3(point, apexOf(solid, rolled)) <= NOISE_MM;
  const touched = (flat: Vec2): Placed => {
    const on = toSpace(solid, rolled, flat);
    return { plane: { normal: scale3(normalAt(solid.vertices, own, on), side), speed }, through: on };
  };
  const roll = own.roll as Roll;
  if (isPeak || (surface.form === 'cone' && isPeakOf(solid, rolled, point))) {
    const lows = roll.rulings.map(([, low]) => at(roll.flat, low));
    return [0, 0.3, 0.6].map((share) => touched(at(lows, Math.floor(share * (lows.length - 1)))));
  }
  return [touched(pointInFace(solid, face, point))];
}

/** On the axis above or below the peak, where the search for a peak has come to. */
function isPeakOf(solid: Solid, rolled: Rolled, point: Vec3): boolean {
  const peak = apexOf(solid, rolled);
  return Math.hypot(point[0] - peak[0], point[1] - peak[1]) <= NOISE_MM && rolled.surface.form === 'cone';
}

/** How a rolled face lies flat once it has moved to these corners, and how far its samples keep to the curve; null: it has no radius left. */
export function rolledAnew(solid: Solid, face: number, points: readonly Vec3[], by: number): Roll | null {
  const roll = (solid.faces[face] as Face).roll as Roll;
  const rolled: Rolled = { face, surface: roll.surface };
  const flatOf = (p: Vec3): Vec2 => pointInFace(solid, face, p);
  const azimuths = roll.rulings.map(([, low]) => azimuthOf(roll.surface, flatOf(points[low] as Vec3)));
  const step = Math.max(...azimuths.slice(1).map((azimuth, i) => Math.abs(azimuth - (azimuths[i] as number))));
  const deviationOf = (radius: number): number => radius * (1 - Math.cos(step / 2));
  if (roll.surface.form === 'cylinder') {
    const radius = roll.surface.radius + by;
    if (!isPositive(radius)) return null;
    const grow = radius / roll.surface.radius;
    const flat = points.map((p): Vec2 => {
      const [x, y] = flatOf(p);
      return roll.surface.form === 'cylinder' && roll.surface.rulings === 'y' ? [x * grow, y] : [x, y * grow];
    });
    return { ...roll, surface: { ...roll.surface, radius }, flat, deviation: deviationOf(radius) };
  }
  const { sine, apex } = roll.surface;
  const frame = faceFrame(solid, face);
  // The axis goes up from the peak; along it the peak moves by the offset over the sine.
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const axis = add3(scale3(frame.y, cosine), scale3(frame.normal, sine));
  const peak = add3(apexOf(solid, rolled), scale3(axis, by / sine));
  const slants = points.map((p) => distance3(p, peak));
  // Nothing of a cone is left once its eave has passed its peak.
  if (points.some((p, i) => isPositive(slants[i] as number) && !isPositive(-dot3(axis, sub3(p, peak))))) return null;
  const longest = Math.max(...slants);
  const flat = points.map((p, i): Vec2 => {
    const [x, y] = flatOf(p);
    // At the peak every direction is the same point.
    const angle = slants[i] === 0 ? 0 : Math.atan2(x, apex - y);
    const slant = slants[i] as number;
    return [slant * Math.sin(angle) + 0, longest - slant * Math.cos(angle)];
  });
  return { ...roll, surface: { ...roll.surface, apex: longest }, flat, deviation: deviationOf(longest * sine) };
}
