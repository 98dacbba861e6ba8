import { boxOf } from '../../geometry/polygon.ts';
import { sub2, type Vec2 } from '../../geometry/vector.ts';
import type { Body } from '../../project/project.ts';
import { buildSolid } from '../../solid/build-solid.ts';
import { titleCase, windOf } from '../../solid/compass.ts';
import type { Solid } from '../../solid/solid.ts';
import { isSameLength } from '../../tolerance.ts';
import type { SideName } from '../regular.ts';
import { addEndWalls } from './end-walls.ts';
import { stackRings } from './rings.ts';

export interface LeanTo {
  /**
   * The free eaves, from the wall on the left (west) round the front to the wall on the right, mm: convex, its first and last
   * corner at y = 0, where the wall is, all others in front of it.
   */
  readonly eave: readonly Vec2[];
  /** Where along the wall the peak stands. */
  readonly peakX: number;
  readonly rise: number;
  /** Closed behind by an upright panel, or open. */
  readonly back: 'wall' | 'open';
  readonly body: Body | null;
}

/**
 * Slopes that lean against a wall behind them and meet in a peak on it. The back stands over the wall of the body that lies
 * farthest back; without a body the middle of the plan is the origin. A back panel reaches from where the roof rests on that wall
 * up to the slopes, as wide as the wall.
 */
export function buildLeanTo({ eave, peakX, rise, back, body }: LeanTo): Solid {
  const behind = wallBehind(body) ?? { middle: [0, (boxOf(eave).maxY - boxOf(eave).minY) / 2], half: null };
  const [dx, dy] = behind.middle;
  const moved = ([x, y]: Vec2): Vec2 => [x + dx, y === 0 ? dy : y + dy];
  const corners = eave.map(moved);
  const names = eave.slice(1).map((q, i) => facingName(sub2(q, eave[i] as Vec2), i, eave.length - 1));
  const slopes = stackRings({
    rings: [
      { level: 0, corners },
      { level: rise, corners: [moved([peakX, 0])] },
    ],
    sides: [...names, null],
  });
  if (back === 'open') return buildSolid(slopes);
  const [left, right] = [corners[0] as Vec2, corners.at(-1) as Vec2];
  const [from, to] = behind.half === null ? [right, left] : [moved([behind.half, 0]), moved([-behind.half, 0])];
  const { faces, abutments } = addEndWalls(slopes, [{ id: 'back', title: 'Back', from, to }]);
  return buildSolid(faces, abutments);
}

/** The middle of the body's back wall and half of its length. */
function wallBehind(body: Body | null): { readonly middle: Vec2; readonly half: number } | null {
  if (!body) return null;
  const { maxY } = boxOf(body.outline);
  const { minX, maxX } = boxOf(body.outline.filter(([, y]) => isSameLength(y, maxY)));
  return { middle: [(minX + maxX) / 2, maxY], half: (maxX - minX) / 2 };
}

/** Sides fewer than eight round half a turn are told apart by the wind that they face; more are numbered from the left. */
function facingName([x, y]: Vec2, index: number, count: number): SideName {
  if (count > 8) return { id: `side-${index + 1}`, title: `Side ${index + 1}` };
  const id = windOf(y, -x);
  return { id, title: titleCase(id) };
}
