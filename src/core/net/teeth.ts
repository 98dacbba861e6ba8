import { distance2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import { pointInFace } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import { edgePath, type Solid } from '../solid/solid.ts';
import { turningAlong } from './choose-flaps.ts';

/** One tooth of a curved seam: it begins and ends at these points of the edge's path. */
export interface Tooth {
  readonly from: number;
  readonly to: number;
  /** How far each of its sides leans in, radians, so that neighbours do not meet. */
  readonly lean: number;
  /** Longest that its sides leave a tip, mm. */
  readonly reach: number;
}

/** A tooth's base keeps within this of the curve, mm, so that it folds along a straight score. */
export const SAGITTA = 0.1;
const WIDEST = 8;
/** Sides lean in by this at least, so that notches can be cut, radians. */
const LEAST_LEAN = 0.12;
/** A tooth's tip is left this share of its base. */
const TIP = 0.35;

/**
 * Divides a curved seam into teeth of one width: as wide as the curve's radius allows, at most 8 mm; some way in from both ends
 * of the seam. `carrier` and `mate` are the faces that carry the teeth and that they are glued under.
 */
export function teethAlong(
  solid: Solid,
  seam: number,
  { carrier, mate }: { readonly carrier: number; readonly mate: number },
  spec: Pick<FlapSpec, 'clearance' | 'least'>,
): readonly Tooth[] {
  const edge = solid.edges[seam] as Solid['edges'][number];
  const path = edgePath(edge).map((v) => pointInFace(solid, mate, solid.vertices[v] as Vec3));
  // Behind a wall that stands on a panel the teeth lie on the other side of the curve.
  const way = isFootOnFace(solid, seam) ? -1 : 1;
  const turning = Math.max(way * turningAlong(solid, seam, mate), -turningAlong(solid, seam, carrier));
  const bend = Math.max(Math.abs(turningAlong(solid, seam, carrier)), Math.abs(turning));
  return divideCurve({ path, length: edge.length, turning, bend }, spec);
}

/** A curve to be set with teeth, as it lies where they are turned to. */
export interface ToothedCurve {
  readonly path: readonly Vec2[];
  /** Along the curve, mm. */
  readonly length: number;
  /** How far the teeth turn towards each other, from the first step of the path to the last, radians. */
  readonly turning: number;
  /** How far the curve turns at most between them, here or on the panel that carries the teeth, radians. */
  readonly bend: number;
}

/** Teeth of one width along a curve, as wide as its bend allows, as far in from both ends as the clearance. */
export function divideCurve(
  { path, length, turning, bend }: ToothedCurve,
  { clearance, least }: Pick<FlapSpec, 'clearance' | 'least'>,
): readonly Tooth[] {
  const parts = path.length - 1;
  // The curve goes on turning for half a step at either end.
  const atEnds = parts / Math.max(1, parts - 1);
  const wanted = Math.min(WIDEST, Math.max(1.2 * least, Math.sqrt((8 * SAGITTA * length) / (atEnds * bend))));
  const inset = Math.ceil((clearance * parts) / length);
  const room = parts - 2 * inset;
  const count = Math.min(room, Math.max(1, Math.round((room * length) / parts / wanted)));
  if (room < 1) return [];
  const stops = Array.from({ length: count + 1 }, (_, i) => inset + Math.round((i * room) / count));
  return stops.slice(1).map((to, i): Tooth => {
    const from = stops[i] as number;
    const lean = Math.max(LEAST_LEAN, (1.1 * atEnds * turning * (to - from)) / parts / 2);
    const base = distance2(path[from] as Vec2, path[to] as Vec2);
    return { from, to, lean, reach: ((1 - TIP) * base) / (2 * Math.tan(lean)) };
  });
}
