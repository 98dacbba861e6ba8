import { at, isInside, ringDistance } from '../geometry/polygon.ts';
import { apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { cross2, sub2, type Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { Direction, Stock } from '../project/project.ts';
import { isSameAngle, NOISE_MM } from '../tolerance.ts';
import type { PieceToLay } from './lay.ts';
import type { LaidSheet, Placement } from './layout.ts';

/** The motion that a placement stands for. */
export const placementMotion = ({ x, y, rotation }: Placement): Rigid2 => ({
  // Quarter and half turns are meant exactly; cos(pi / 2) is not 0 in floating point.
  cos: cleaned(Math.cos(rotation)),
  sin: cleaned(Math.sin(rotation)),
  move: [x, y],
});

const cleaned = (value: number): number => (isSameAngle(value, Math.round(value)) ? Math.round(value) : value);

/** Proves a layout: every piece once or named as not laid, inside the margins, turned only as the paper allows, none on another. */
export function checkLayout(
  pieces: readonly PieceToLay[],
  sheets: readonly LaidSheet[],
  stock: readonly Stock[],
  leftOut: number,
): readonly Issue[] {
  const issues: Issue[] = [];
  const found = (code: string, message: string, numbers: Record<string, number> = {}): void => {
    issues.push({ level: 'error', code, path: '', message, numbers });
  };
  const keyOf = ({ roof, layer, piece, copy }: Omit<Placement, 'x' | 'y' | 'rotation'>): string =>
    `${roof}/${layer}/${piece}/${copy}`;
  const byKey = new Map(pieces.map((piece) => [keyOf(piece), piece]));
  const laid = sheets.flatMap((sheet) => sheet.placements.map(keyOf));
  if (new Set(laid).size !== laid.length || laid.length + leftOut !== pieces.length) {
    found('layout-count', 'Not every piece is laid once.', { laidCount: laid.length, piecesCount: pieces.length });
  }
  for (const sheet of sheets) {
    const { width, height, margin, gap, direction } = stock[sheet.stock] as Stock;
    const rings = sheet.placements.map((placement) => {
      const piece = byKey.get(keyOf(placement));
      if (!piece) throw new Error(`a placement of no piece: ${keyOf(placement)}`);
      if (!isAllowedTurn(placement.rotation, direction)) {
        found('layout-turned', `${piece.title} is turned against the paper.`, { rotation: placement.rotation });
      }
      const ring = piece.outline.map((p) => apply2(placementMotion(placement), p));
      const off = Math.max(
        ...ring.map(([x, y]) => Math.max(margin - x, margin - y, x - (width - margin), y - (height - margin))),
      );
      if (off > NOISE_MM) found('layout-off-sheet', `${piece.title} leaves its sheet.`, { off });
      return ring;
    });
    rings.forEach((a, i) => {
      rings.slice(0, i).forEach((b) => {
        if (ringsOverlap(a, b)) found('layout-overlap', 'Two pieces lie on each other.', { sheetCount: sheet.index });
        else if (gap > 0 && ringDistance(a, b) < gap - NOISE_MM) {
          found('layout-gap', 'Two pieces lie nearer to each other than the stock allows.', {
            sheetCount: sheet.index,
            gap,
          });
        }
      });
    });
  }
  return issues;
}

function isAllowedTurn(rotation: number, direction: Direction): boolean {
  if (direction === 'any') return true;
  const isUpright = isSameAngle(Math.cos(rotation), 1);
  return isUpright || (direction === 'two-way' && isSameAngle(Math.cos(rotation), -1));
}

/** Whether two simple rings have more than a border in common: their borders cross, or one holds a point of the other. */
function ringsOverlap(a: readonly Vec2[], b: readonly Vec2[]): boolean {
  const crosses = a.some((p, i) => b.some((q, j) => properCrossing(p, at(a, i + 1), q, at(b, j + 1))));
  const deep = (p: Vec2, ring: readonly Vec2[]): boolean =>
    isInside(p, ring) && ring.every((q, j) => Math.abs(sideOf(q, at(ring, j + 1), p)) > NOISE_MM);
  const middle = (ring: readonly Vec2[]): Vec2 => {
    const sum = ring.reduce<Vec2>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
    return [sum[0] / ring.length, sum[1] / ring.length];
  };
  return crosses || [...a, middle(a)].some((p) => deep(p, b)) || [...b, middle(b)].some((p) => deep(p, a));
}

/** Distance of p from the line ab, positive to the left, mm. */
const sideOf = (a: Vec2, b: Vec2, p: Vec2): number =>
  cross2(sub2(b, a), sub2(p, a)) / (Math.hypot(b[0] - a[0], b[1] - a[1]) || 1);

function properCrossing(p: Vec2, q: Vec2, a: Vec2, b: Vec2): boolean {
  const [p1, q1, a1, b1] = [sideOf(a, b, p), sideOf(a, b, q), sideOf(p, q, a), sideOf(p, q, b)];
  const parts = (s: number, t: number): boolean => (s > NOISE_MM && t < -NOISE_MM) || (s < -NOISE_MM && t > NOISE_MM);
  return parts(p1, q1) && parts(a1, b1);
}
