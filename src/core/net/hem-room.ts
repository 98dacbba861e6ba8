import { at, depthIn, isInside, leftOf, ringArea } from '../geometry/polygon.ts';
import { distance2, lerp2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { FlapSpec } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import type { Solid } from '../solid/solid.ts';
import { isAtMost, isPositive, NOISE_MM } from '../tolerance.ts';
import { type HemUnder, hemsUnder } from './hem.ts';

/** What stands under the roof and may pass through the planes of its eaves: the body, or the collar of a seat. */
export interface UnderRoof {
  /** Its plan, counter-clockwise, and the courts in it. */
  readonly outline: readonly Vec2[];
  readonly courts?: readonly (readonly Vec2[])[] | undefined;
  /** From where to where it reaches, mm in the frame of the solid. */
  readonly bottom: number;
  readonly top: number;
  /** What it is called in a sentence, as `the walls of the body`. */
  readonly name: string;
}

/** An upright wall over a line of the plan. */
interface Wall {
  readonly ends: readonly [Vec2, Vec2];
  readonly bottom: number;
  readonly top: number;
  readonly name: string;
}

/** Whether hems of a width run into what stands under the roof or into the roof's own walls; on top of them they may lie. */
export function hemRoom(solid: Solid, width: number, flaps: FlapSpec, under: readonly UnderRoof[]): readonly Issue[] {
  const walls = [...under.flatMap(wallsOf), ...ownWalls(solid)];
  const isPassed = ({ bottom, top }: Pick<Wall, 'bottom' | 'top'>, level: number): boolean =>
    level > bottom + NOISE_MM && level < top - NOISE_MM;
  const meeting = hemsUnder(solid, width, flaps).flatMap((hem) => {
    const passed = walls.filter((wall) => isPassed(wall, hem.level));
    const rooms = passed.map((wall) => ({ name: wall.name, room: roomBefore(hem, wall.ends) }));
    const over = under.filter((one) => isPassed(one, hem.level) && isWithin(hem, one));
    const [least] = [...rooms, ...over.map(({ name }) => ({ name, room: 0 }))]
      .filter(({ room }) => !isAtMost(width, room))
      .sort((a, b) => a.room - b.room);
    return least ? [{ edge: hem.edge, ...least }] : [];
  });
  const [worst] = meeting.toSorted((a, b) => a.room - b.room);
  if (!worst) return [];
  return [
    {
      level: 'error',
      code: 'hem-meets-wall',
      path: 'hem',
      place: { edges: [...new Set(meeting.map(({ edge }) => solid.edges[edge]?.id ?? ''))] },
      numbers: { width, room: worst.room },
      message: `The hem is {width} wide and runs into ${worst.name}: there is room for {room} at the ${edgeName(solid, worst.edge)}.`,
      remedy: 'Make the hem narrower, or let the roof stand out farther.',
    },
  ];
}

const wallsOf = ({ outline, courts = [], bottom, top, name }: UnderRoof): readonly Wall[] =>
  [outline, ...courts].flatMap((ring) => ring.map((p, i): Wall => ({ ends: [p, at(ring, i + 1)], bottom, top, name })));

/** Walls of the roof itself: those that a roof stands on, and gable ends. */
const ownWalls = ({ vertices, faces }: Solid): readonly Wall[] =>
  faces.flatMap(({ part, loop }): Wall[] => {
    if (part !== 'wall') return [];
    const points = loop.map((v) => vertices[v] as Vec3);
    const levels = points.map((p) => p[2]);
    const plan = points.map(([x, y]): Vec2 => [x, y]);
    const far = (from: Vec2): Vec2 => plan.reduce((best, p) => (distance2(p, from) > distance2(best, from) ? p : best));
    const end = far(plan[0] as Vec2);
    return [
      { ends: [end, far(end)], bottom: Math.min(...levels), top: Math.max(...levels), name: 'a wall of the roof' },
    ];
  });

const isWithin = ({ ring }: HemUnder, { outline, courts = [] }: UnderRoof): boolean =>
  ring.length > 0 && ring.every((p) => isInside(p, outline) && !courts.some((court) => isInside(p, court)));

/** How far from its edge a hem may reach before a wall that it runs into; infinite where it does not. */
function roomBefore({ ring, ends: [a, b] }: HemUnder, [p, q]: readonly [Vec2, Vec2]): number {
  if (ring.length === 0 || !isPositive(ringArea(ring))) return Number.POSITIVE_INFINITY;
  let [from, to] = [0, 1];
  ring.forEach((corner, i) => {
    const next = at(ring, i + 1);
    if (!isPositive(distance2(corner, next))) return;
    const inner = leftOf(corner, next, NOISE_MM);
    const [d, e] = [depthIn(inner, p), depthIn(inner, q)];
    if (d < 0 && e < 0) to = -1;
    else if (d < 0) from = Math.max(from, d / (d - e));
    else if (e < 0) to = Math.min(to, d / (d - e));
  });
  if (from >= to) return Number.POSITIVE_INFINITY;
  const edge = leftOf(a, b);
  return Math.max(0, Math.min(depthIn(edge, lerp2(p, q, from)), depthIn(edge, lerp2(p, q, to))));
}
