import { move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { add3, cross3, dot3, length3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import {
  type FaceFrame,
  faceFrame,
  frameMotion,
  into,
  rulingIn,
  rulingOf,
  touchOf,
  turnedInto,
} from '../solid/face-frame.ts';
import { bendPoint, type Roll, type Ruling, type Touch, touchUnder } from '../solid/roll.ts';
import type { Edge, Face, Solid } from '../solid/solid.ts';
import { HAIR_MM, isPositive, NOISE_MM, NOISE_RAD } from '../tolerance.ts';
import { type MovingPlane, meetAfter, threeOf } from './moving-plane.ts';
import type { Corner, OffsetMesh, Sector } from './offset-mesh.ts';
import { peakOf } from './rolled-anew.ts';

/** Most steps in which a corner on a rolled face is drawn to its place; each doubles the digits that are right. */
const STEPS = 40;

/** A point as near to all planes of a corner lies in them. */
const NEAR_MM = HAIR_MM / 100;

/** A rolled face of the solid that is offset. */
interface Rolled {
  readonly roll: Roll;
  readonly frame: FaceFrame;
  /** Where the straight lines of a cone meet, whether the panel reaches there or not; null of a cylinder. */
  readonly peak: Vec3 | null;
}

function rolledFace(solid: Solid, face: number): Rolled | null {
  const { roll } = solid.faces[face] as Face;
  if (!roll) return null;
  const frame = faceFrame(solid, face);
  return { roll, frame, peak: peakOf(frame, roll.surface) };
}

/** Where a point of the flat panel lies on the roof. */
function touchAt({ roll: { surface }, frame }: Rolled, flat: Vec2): Touch {
  const point = move3(frameMotion(frame), bendPoint(surface, flat, 1));
  return { point, normal: touchOf(frame, surface, point).normal };
}

/**
 * Where corners on rolled faces lie once every face has moved by `by` mm times its speed: the surfaces are parallel to what they were, so that
 * a plane that touches one along a ruling moves like that of a flat face. The samples of a curve share it out between its ends
 * as before. The key of a corner whose faces no longer meet anywhere, as where a vault has sunk below the foot of its end wall.
 */
export function placeRolled(solid: Solid, mesh: OffsetMesh, by: number): ReadonlyMap<number, Vec3> | number {
  const places = new Map<number, Vec3>();
  if (!solid.faces.some(({ roll }) => roll)) return places;
  const rolledFaces = solid.faces.map((_, f) => rolledFace(solid, f));
  /** The curve that each vertex samples, by its index. */
  const sampling: number[] = [];
  for (const [e, { via = [] }] of solid.edges.entries()) for (const v of via) sampling[v] ??= e;
  const onCurve = solid.edges.map((): number[] => []);
  const keyOf: number[] = [];
  for (const [key, corner] of mesh.corners) {
    for (const v of corner.origins) keyOf[v] ??= key;
    if (!corner.ring.some(({ rolled }) => rolled)) continue;
    const curve = sampling[corner.origins[0] as number];
    if (curve !== undefined) onCurve[curve]?.push(key);
    else if (!corner.ring.every(holds)) {
      const place = settle(solid, rolledFaces, corner, by, null);
      if (!place) return key;
      places.set(key, place);
    }
  }
  const placeOf = (v: number): Vec3 => {
    const key = keyOf[v] ?? -1;
    return places.get(key) ?? mesh.corners.get(key)?.place ?? (solid.vertices[v] as Vec3);
  };
  for (const [e, samples] of onCurve.entries()) {
    const edge = solid.edges[e] as Edge;
    const carrier = mesh.corners.get(samples[0] ?? -1)?.ring.find((sector) => sector.rolled);
    const rolled = rolledFaces[carrier?.rolled?.face ?? -1];
    if (!carrier || !rolled) continue;
    const { surface } = rolled.roll;
    const azimuthAt = (p: Vec3): number => rulingOf(rolled.frame, surface, p).azimuth;
    const [a, b] = edge.ends.map((v) => azimuthAt(solid.vertices[v] as Vec3)) as [number, number];
    const [c, d] = edge.ends.map((v) => azimuthAt(placeOf(v))) as [number, number];
    const isLonger = isPositive(Math.abs(c - a) + Math.abs(d - b));
    for (const key of samples) {
      const corner = mesh.corners.get(key) as Corner;
      // It goes along its curve with an end of it that moves, though all that meets in it holds still.
      if (!isLonger && corner.ring.every(holds)) continue;
      const { azimuth, reach } = rulingOf(rolled.frame, surface, solid.vertices[corner.origins[0] as number] as Vec3);
      // A full circle begins and ends on one ruling.
      const share = b === a ? 0 : (azimuth - a) / (b - a);
      const ruling = rulingIn(rolled.frame, surface, { azimuth: isLonger ? c + share * (d - c) : azimuth, reach });
      const place =
        alongRuling(solid, rolledFaces, corner, by, { carrier, ruling }) ??
        settle(solid, rolledFaces, corner, by, acrossOf(ruling));
      if (!place) return key;
      places.set(key, place);
    }
  }
  return places;
}

/** The plane through a ruling that stands on its face. */
const acrossOf = ({ point, normal, along }: Ruling): Placed => ({
  plane: { normal: cross3(normal, along), speed: 0 },
  through: point,
});

/**
 * Where on a ruling of the rolled face that carries a curve, moved with it, the other face of a corner on that curve is met once it
 * has moved; null where there is not one other, or it is not met.
 */
function alongRuling(
  solid: Solid,
  rolledFaces: readonly (Rolled | null)[],
  { ring, origins }: Corner,
  by: number,
  { carrier, ruling: { point, normal, along } }: { readonly carrier: Sector; readonly ruling: Ruling },
): Vec3 | null {
  const other = ring.find((sector) => sector !== carrier);
  if (!other || !carrier.rolled || !ring.includes(carrier)) return null;
  if (ring.some((sector) => sector !== carrier && sector !== other)) return null;
  const from = add3(point, scale3(normal, carrier.rolled.side * carrier.rolled.speed * by));
  const reach = other.plane
    ? toPlane(from, along, other.plane, solid.vertices[origins[0] as number] as Vec3, by)
    : toRolled(from, along, other, rolledFaces, by);
  return reach === null ? null : add3(from, scale3(along, reach));
}

/** How far along a line a plane is met that was at a place before it moved, mm. */
function toPlane(from: Vec3, along: Vec3, { normal, speed }: MovingPlane, through: Vec3, by: number): number | null {
  const slope = dot3(normal, along);
  return Math.abs(slope) <= NOISE_RAD ? null : (dot3(normal, sub3(through, from)) + speed * by) / slope;
}

/** How far along a line a rolled face is met once it has moved, mm. */
function toRolled(
  from: Vec3,
  along: Vec3,
  { rolled }: Sector,
  rolledFaces: readonly (Rolled | null)[],
  by: number,
): number | null {
  const met = rolledFaces[rolled?.face ?? -1];
  if (!met || !rolled) return null;
  const { frame, roll } = met;
  const start = into(frame, from);
  const way = turnedInto(frame, along);
  let reach = 0;
  for (let step = 0; step < STEPS; step++) {
    const place = add3(start, scale3(way, reach));
    const { point, normal } = touchUnder(roll.surface, place);
    const slope = dot3(normal, way);
    if (Math.abs(slope) <= NOISE_RAD) return null;
    const away = (dot3(normal, sub3(point, place)) + rolled.side * rolled.speed * by) / slope;
    reach += away;
    // The next step would be a square of this one.
    if (Math.abs(away) < HAIR_MM) return reach;
  }
  return null;
}

/** Nothing of it moves. */
const holds = ({ plane, rolled }: Sector): boolean => (plane ?? rolled)?.speed === 0;

interface Placed {
  readonly plane: MovingPlane;
  readonly through: Vec3;
}

/** The point in which the moved planes of a corner and those that touch its rolled faces there meet; null where there is none. */
function settle(
  solid: Solid,
  rolledFaces: readonly (Rolled | null)[],
  { ring, origins }: Corner,
  by: number,
  third: Placed | null,
): Vec3 | null {
  const start = solid.vertices[origins[0] as number] as Vec3;
  let point = third?.through ?? start;
  let fixed: Placed | null = third;
  for (let step = 0; step < STEPS; step++) {
    const all: Placed[] = [];
    for (const { plane, rolled } of ring) {
      const on = rolledFaces[rolled?.face ?? -1];
      if (plane) all.push({ plane, through: start });
      else if (rolled && on)
        for (const touch of touching(on, point)) {
          const normal = rolled.side === 1 ? touch.normal : scale3(touch.normal, -1);
          all.push({ plane: { normal, speed: rolled.speed }, through: touch.point });
        }
    }
    if (fixed) all.push(fixed);
    const distanceTo = ({ plane, through }: Placed): number =>
      dot3(plane.normal, sub3(through, point)) + plane.speed * by;
    if (step > 0 && all.every((one) => Math.abs(distanceTo(one)) <= NEAR_MM)) return point;
    const planes = all.map(({ plane }) => plane);
    const three = threeOf(planes);
    const found = three.map((plane): Placed => all[planes.indexOf(plane)] ?? { plane, through: start });
    fixed ??= found.find((one) => !all.includes(one)) ?? null;
    const [a, b, c] = three;
    const distances = found.map(distanceTo) as [number, number, number];
    const away = meetAfter([a.normal, b.normal, c.normal], distances);
    if (!away) return distances.every((distance) => Math.abs(distance) <= NOISE_MM) ? point : null;
    point = add3(point, away);
    // The next step would be a square of this one.
    if (!(length3(away) >= HAIR_MM)) return point;
  }
  return null;
}

/** Where a plane touches a rolled face at the ruling of a point; three places at the peak of a cone, or on the axis above or below it, where the search for a peak has come to. */
function touching(rolled: Rolled, point: Vec3): readonly Touch[] {
  const { roll, frame, peak } = rolled;
  if (peak && Math.abs(point[0] - peak[0]) <= NOISE_MM && Math.abs(point[1] - peak[1]) <= NOISE_MM) {
    const lows = roll.rulings.map(([, low]) => at(roll.flat, low));
    return [0, 0.3, 0.6].map((share) => touchAt(rolled, at(lows, Math.floor(share * (lows.length - 1)))));
  }
  return [touchOf(frame, roll.surface, point)];
}
