import { at, isInside, ringArea, ringDistance } from '../geometry/polygon.ts';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import { isAtMost, isSameAngle } from '../tolerance.ts';
import { clockwise, courtOutside, courtsMeet, sidesCross, sideTooShort, straightCorner } from './measure-issues.ts';

/** What keeps a ring from being a plan: a side too short, crossing sides, a straight corner, the wrong way round. */
export function checkRing(ring: readonly Vec2[], path: string, least: number): readonly Issue[] {
  const issues: Issue[] = [];
  ring.forEach((p, i) => {
    const length = distance2(p, at(ring, i + 1));
    if (!isAtMost(least, length)) issues.push(sideTooShort(path, i, length, least));
  });
  if (issues.length > 0) return issues;
  const crossing = firstCrossing(ring);
  if (crossing) return [sidesCross(path, ...crossing)];
  if (ringArea(ring) < 0) return [clockwise(path)];
  ring.forEach((p, i) => {
    const [into, out] = [sub2(p, at(ring, i - 1)), sub2(at(ring, i + 1), p)];
    if (isSameAngle(Math.atan2(cross2(into, out), dot2(into, out)), 0)) issues.push(straightCorner(path, i));
  });
  return issues;
}

/** Courts are rings too, inside the outline and apart from it and each other. */
export function checkCourts(
  courts: readonly (readonly Vec2[])[],
  outline: readonly Vec2[],
  least: number,
): readonly Issue[] {
  const issues = courts.flatMap((court, c) => checkRing(court, `courts[${c}]`, least));
  if (issues.length > 0) return issues;
  return courts.flatMap((court, c): readonly Issue[] => {
    const path = `courts[${c}]`;
    const isIn = court.every((p) => isInside(p, outline)) && !touches(court, outline, least);
    if (!isIn) return [courtOutside(path, least)];
    const before = courts.slice(0, c);
    const meets = before.findIndex(
      (other) => touches(court, other, least) || isInside(court[0] as Vec2, other) || isInside(other[0] as Vec2, court),
    );
    return meets < 0 ? [] : [courtsMeet(path, meets)];
  });
}

const touches = (a: readonly Vec2[], b: readonly Vec2[], least: number): boolean =>
  !isAtMost(least, ringDistance(a, b)) || a.some((p, i) => b.some((q, j) => meet(p, at(a, i + 1), q, at(b, j + 1))));

/** Two sides, by number from 0, that cross or touch elsewhere than at a shared corner. */
function firstCrossing(ring: readonly Vec2[]): readonly [number, number] | null {
  for (let i = 0; i < ring.length; i++) {
    for (let j = i + 1; j < ring.length; j++) {
      const [a, b, c, d] = [at(ring, i), at(ring, i + 1), at(ring, j), at(ring, j + 1)];
      const isNext = j === i + 1;
      const isLast = i === 0 && j === ring.length - 1;
      if (isNext || isLast) {
        // Neighbours share a corner; they cross only where one runs back along the other.
        const [corner, one, other] = isNext ? [b, a, d] : [a, b, c];
        const [u, v] = [sub2(one, corner), sub2(other, corner)];
        if (isSameAngle(Math.atan2(cross2(u, v), dot2(u, v)), 0)) return [i, j];
      } else if (meet(a, b, c, d)) return [i, j];
    }
  }
  return null;
}

/** Whether two segments have a point in common. */
function meet(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const side = (p: Vec2, q: Vec2, r: Vec2): number => Math.sign(cross2(sub2(q, p), sub2(r, p)));
  const within = (p: Vec2, q: Vec2, r: Vec2): boolean => side(p, q, r) === 0 && dot2(sub2(r, p), sub2(r, q)) <= 0;
  if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
  return within(a, b, c) || within(a, b, d) || within(c, d, a) || within(c, d, b);
}
