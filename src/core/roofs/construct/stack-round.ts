import { roofSteps } from '../../geometry/arc.ts';
import { at, distanceToSegment, isInside } from '../../geometry/polygon.ts';
import { length2, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { fail, type Result, succeed } from '../../issue.ts';
import type { AbutmentDraft, FaceDraft } from '../../solid/build-solid.ts';
import type { Solid } from '../../solid/solid.ts';
import { isSameLength, SNAP_MM } from '../../tolerance.ts';
import { cylinderFace, halves } from './rolled.ts';
import { roundWallUneven, upperTooSmall, wallSticksOut } from './tier-issues.ts';
import { checkTiers, draftsOf, joinTiers, type Tiers } from './tiers.ts';

/** A face that a round wall meets along a level circle. */
interface Meeting {
  readonly face: FaceDraft;
  readonly level: number;
  /** In how many steps the face's own low edge is sampled, where the wall stands right under it; null: it meets the inside. */
  readonly edgeSteps: number | null;
}

/**
 * A round wall, in two rolled halves, between a lower roof and an upper one that are level all round it: cones, rings of cones,
 * level tops. The lower roof stays whole; under an upper roof that does not stand out the wall shares its eave.
 */
export function stackRound(tiers: Tiers): Result<Solid> {
  const { lower, wall, upper } = tiers;
  const radius = Math.max(...wall.outline.map(length2));
  if (radius > reachOf(lower) + SNAP_MM) return fail(wallSticksOut);
  if (radius > reachOf(upper) + SNAP_MM) return fail(upperTooSmall);
  const below = draftsOf(lower, 'lower', 0);
  const feet = halves.map(({ id }) => meetingAt(below.faces, radius, id, 1));
  const hung = draftsOf(upper, 'upper', 0);
  const heads = halves.map(({ id }) => meetingAt(hung.faces, radius, id, -1));
  const [foot, head] = [feet[0], heads[0]];
  if (!foot || !head || !isLevel(feet) || !isLevel(heads)) return fail(roundWallUneven);
  const top = foot.level + wall.height;
  const above = draftsOf(upper, 'upper', top - head.level);
  const checked = checkTiers(tiers, above);
  if (!checked.ok) return checked;

  const steps = head.edgeSteps ?? roofSteps(radius, Math.PI);
  const abutments: AbutmentDraft[] = [...below.abutments, ...above.abutments];
  const walls = halves.map(({ id, title, ...azimuths }, h) => {
    const name = { id: `wall-${id}`, title: `${title} of the wall`, part: 'wall', side: 'wall' } as const;
    const face = cylinderFace(name, azimuths, { radius, z: foot.level }, wall.height, steps);
    const meets = (from: number, slope: string): void => {
      for (let i = from; i < from + steps; i++)
        abutments.push({ wall: face.id, slope, ends: [face.points[i] as Vec3, face.points[i + 1] as Vec3] });
    };
    meets(0, feet[h]?.face.id ?? '');
    if (head.edgeSteps === null) meets(steps + 1, heads[h]?.face.id ?? '');
    return face;
  });
  return succeed(joinTiers(tiers, [...below.faces, ...walls, ...above.faces], abutments));
}

/** How far a roof reaches out from its middle, mm. */
const reachOf = ({ vertices }: Solid): number => Math.max(...vertices.map(([x, y]) => length2([x, y])));

const isLevel = (ring: readonly (Meeting | null)[]): boolean =>
  ring.every((one) => one && isSameLength(one.level, ring[0]?.level ?? Number.NaN));

/** The highest (`way` 1) or lowest (-1) face that is level along half a circle; null where none is. */
function meetingAt(faces: readonly FaceDraft[], radius: number, half: string, way: 1 | -1): Meeting | null {
  const found = faces.flatMap((face) => {
    const meeting = face.part === 'slope' ? (onCone(face, radius, half) ?? onLevel(face, radius)) : null;
    return meeting ? [meeting] : [];
  });
  return found.reduce<Meeting | null>((best, one) => (best && way * (best.level - one.level) >= 0 ? best : one), null);
}

/** Half a cone about the upright axis. */
function onCone({ points, roll, ...face }: FaceDraft, radius: number, half: string): Meeting | null {
  if (roll?.surface.form !== 'cone' || half !== (points.reduce((sum, p) => sum + p[0], 0) < 0 ? 'west' : 'east'))
    return null;
  const circles = points.map(([x, y, z]) => ({ radius: length2([x, y]), z }));
  const low = circles.reduce((one, other) => (other.radius > one.radius ? other : one));
  const high = circles.reduce((one, other) => (other.radius < one.radius ? other : one));
  const isRound = circles.every((circle) =>
    [low, high].some((end) => isSameLength(circle.radius, end.radius) && isSameLength(circle.z, end.z)),
  );
  if (!isRound || radius > low.radius + SNAP_MM || radius < high.radius - SNAP_MM) return null;
  const share = (low.radius - radius) / (low.radius - high.radius);
  const isEdge = Math.abs(radius - low.radius) <= SNAP_MM;
  const lowPoints = circles.filter((circle) => isSameLength(circle.radius, low.radius)).length;
  return {
    face: { points, roll, ...face },
    level: low.z + (high.z - low.z) * share,
    edgeSteps: isEdge ? lowPoints - 1 : null,
  };
}

/** A level top with the whole circle on it. */
function onLevel(face: FaceDraft, radius: number): Meeting | null {
  const level = face.points[0]?.[2] ?? 0;
  if (face.roll || !face.points.every((p) => isSameLength(p[2], level))) return null;
  const ring = face.points.map(([x, y]): Vec2 => [x, y]);
  const room = Math.min(...ring.map((p, i) => distanceToSegment([0, 0], p, at(ring, i + 1))));
  return isInside([0, 0], ring) && room >= radius - SNAP_MM ? { face, level, edgeSteps: null } : null;
}
