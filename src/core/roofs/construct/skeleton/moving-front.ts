import { cross2, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import type { Arc } from './close-faces.ts';
import { type Corner, cornerAt, meetingOf, type Plane, type Side, velocityBetween } from './front.ts';

/** How far noise may move things. */
export interface Noise {
  /** Distance within which corners count as together. */
  readonly near: number;
  /** Sine below which two directions count as parallel. */
  readonly parallel: number;
}

/** The front on its way up: what it is made of at the level `now`, and what it has left behind. */
export interface MovingFront {
  readonly noise: Noise;
  now: number;
  /** Sides alive, and corners alive that turn inward. */
  readonly sides: Set<Side>;
  readonly reflex: Set<Corner>;
  /** Sides that came since the events were last worked out. */
  fresh: Side[];
  readonly nodes: Vec3[];
  /** Each is a piece of the boundary of one face. */
  arcs: Arc[];
}

export const startFront = (noise: Noise): MovingFront => ({
  noise,
  now: 0,
  sides: new Set(),
  reflex: new Set(),
  fresh: [],
  nodes: [],
  arcs: [],
});

export const addNode = (front: MovingFront, [x, y]: Vec2): number => front.nodes.push([x, y, front.now]) - 1;

/** A piece of the boundary of the plane's face, which lies to its left. */
export function addHalf(front: MovingFront, plane: Plane, from: number, to: number): void {
  if (from !== to) front.arcs.push({ plane, from, to });
}

/** An arc between two planes: in the direction from → to the first plane lies to the left. */
export function addArc(front: MovingFront, left: Plane, right: Plane, from: number, to: number): void {
  addHalf(front, left, from, to);
  addHalf(front, right, to, from);
}

/** Two nodes turned out to be one. */
export function mergeNode(front: MovingFront, drop: number, keep: number): void {
  front.arcs = front.arcs.map((arc) => ({
    ...arc,
    from: arc.from === drop ? keep : arc.from,
    to: arc.to === drop ? keep : arc.to,
  }));
}

/** A corner at a node of this level; it has no sides yet. */
export function bear(front: MovingFront, node: number, into: Plane, out: Plane): Corner {
  const { parallel } = front.noise;
  const [x, y] = front.nodes[node] as Vec3;
  const corner = {
    node,
    at: [x, y] as const,
    level: front.now,
    velocity: velocityBetween(into, out, parallel),
    isReflex: meetingOf(into, out, parallel) === 'turned' && cross2(into.along, out.along) < 0,
    isAlive: true,
  } as Corner;
  if (corner.isReflex) front.reflex.add(corner);
  return corner;
}

export function join(front: MovingFront, from: Corner, to: Corner, plane: Plane): Side {
  const side: Side = { plane, from, to, isAlive: true };
  from.out = side;
  to.into = side;
  front.sides.add(side);
  front.fresh.push(side);
  return side;
}

/** A corner at a node between two that stay. */
export function weld(front: MovingFront, node: number, from: Corner, into: Plane, out: Plane, to: Corner): Corner {
  const corner = bear(front, node, into, out);
  join(front, from, corner, into);
  join(front, corner, to, out);
  return corner;
}

export function kill(front: MovingFront, side: Side): void {
  side.isAlive = false;
  front.sides.delete(side);
}

export function drop(front: MovingFront, corner: Corner): void {
  corner.isAlive = false;
  front.reflex.delete(corner);
}

/** The corner ends at a node: its way there is a hip or valley. */
export function finish(front: MovingFront, corner: Corner, node: number): void {
  if (!corner.isAlive) return;
  drop(front, corner);
  addArc(front, corner.into.plane, corner.out.plane, corner.node, node);
}

/** The node of a corner at this level; the corner ends there. */
export function settleCorner(front: MovingFront, corner: Corner): number {
  if (corner.level === front.now) {
    drop(front, corner);
    return corner.node;
  }
  const node = addNode(front, cornerAt(corner, front.now));
  finish(front, corner, node);
  return node;
}
