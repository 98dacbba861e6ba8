import earcut from 'earcut';
import { type BoxedRing, boxedRing, convexParts, ringDepth } from '../geometry/convex-parts.ts';
import { areApart, boxOf, convexDepth, ringArea, ringDistance } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { Direction, Stock } from '../project/project.ts';
import { isSameAngle, isSameLength, NOISE_MM } from '../tolerance.ts';
import type { LayoutJob } from './job.ts';
import { keyOf, type LaidSheet, type Layout, type PieceToLay, type Placement } from './layout.ts';
import { laidRing } from './placed.ts';
import { sheetRing } from './usable.ts';

/**
 * Proves a layout: every piece once or named as left out, on a paper of its layer and on a sheet that is owned, inside the
 * margins, turned only as the paper allows, none on another or nearer than the gap, and what is fixed where it was.
 */
export function checkLayout(job: Omit<LayoutJob, 'rules' | 'seed'>, { sheets, leftOut }: Layout): readonly Issue[] {
  const { pieces, stock } = job;
  const issues: Issue[] = [];
  const byKey = new Map(pieces.map((piece) => [keyOf(piece), piece]));
  const laid = sheets.flatMap((sheet) => sheet.placements.map(keyOf));
  const named = leftOut.map((i) => keyOf(pieces[i] as PieceToLay));
  const all = [...laid, ...named];
  if (new Set(all).size !== all.length || all.length !== pieces.length) {
    const numbers = { laidCount: laid.length, piecesCount: pieces.length };
    issues.push(found('layout-count', 'Not every piece is laid once.', numbers));
  }
  for (const sheet of sheets) {
    const paper = stock[sheet.stock] as Stock;
    if (paper.count !== null && sheet.index >= paper.count)
      issues.push(
        found('layout-no-sheet', `There is no such sheet of ${paper.name}.`, { sheetCount: sheet.index + 1 }),
      );
    const rings = sheet.placements.map((placement) => {
      const piece = byKey.get(keyOf(placement));
      if (!piece) throw new Error(`a placement of no piece: ${keyOf(placement)}`);
      issues.push(...checkPlacement(piece, placement, sheet.stock, paper));
      return laidRing(piece, placement);
    });
    issues.push(...checkPairs(rings, sheet, paper));
  }
  return [...issues, ...checkFixed(job.fixed, sheets)];
}

const found = (code: string, message: string, numbers: Readonly<Record<string, number>> = {}): Issue => ({
  level: 'error',
  code,
  path: '',
  message,
  numbers,
});

/** What is wrong with a piece by itself where it lies on a sheet of a stock. */
export function checkPlacement(piece: PieceToLay, placement: Placement, s: number, stock: Stock): readonly Issue[] {
  const issues: Issue[] = [];
  const { title } = piece;
  if (!piece.stock.includes(s))
    issues.push(found('layout-stock', `${title} lies on ${stock.name}, which is not for it.`));
  if (!isAllowedTurn(placement.rotation, stock.direction))
    issues.push(found('layout-turned', `${title} is turned against the paper.`, { rotation: placement.rotation }));
  const off = reachOff(laidRing(piece, placement), stock);
  if (off > NOISE_MM) issues.push(found('layout-off-sheet', `${title} leaves its sheet.`, { off }));
  return issues;
}

function checkPairs(rings: readonly (readonly Vec2[])[], sheet: LaidSheet, { gap }: Stock): readonly Issue[] {
  const issues: Issue[] = [];
  const numbers = { sheetCount: sheet.index + 1 };
  const boxed = rings.map(boxedRing);
  rings.forEach((a, i) => {
    for (const [j, b] of rings.slice(0, i).entries()) {
      const [p, q] = [boxed[i] as BoxedRing, boxed[j] as BoxedRing];
      if (areApart(p.box, q.box, gap)) continue;
      const depth = ringDepth(p, q);
      if (depth > NOISE_MM)
        issues.push(found('layout-overlap', 'Two pieces lie on each other.', { ...numbers, depth }));
      else if (gap > 0 && ringDistance(a, b) < gap - NOISE_MM) {
        issues.push(
          found('layout-gap', 'Two pieces lie nearer to each other than the stock allows.', { ...numbers, gap }),
        );
      }
    }
  });
  return issues;
}

function checkFixed(fixed: readonly LaidSheet[], sheets: readonly LaidSheet[]): readonly Issue[] {
  const isThere = (wanted: Placement, { stock, index }: LaidSheet): boolean =>
    sheets.some(
      (sheet) =>
        sheet.stock === stock &&
        sheet.index === index &&
        sheet.placements.some(
          (one) =>
            keyOf(one) === keyOf(wanted) &&
            isSameLength(one.x, wanted.x) &&
            isSameLength(one.y, wanted.y) &&
            isSameAngle(one.rotation, wanted.rotation),
        ),
    );
  const moved = fixed.flatMap((sheet) => sheet.placements.filter((placement) => !isThere(placement, sheet)));
  return moved.map((placement) => found('layout-moved', `A fixed piece has moved: ${keyOf(placement)}.`));
}

function isAllowedTurn(rotation: number, direction: Direction): boolean {
  if (direction === 'any') return true;
  const isUpright = isSameAngle(Math.cos(rotation), 1);
  return isUpright || (direction === 'two-way' && isSameAngle(Math.cos(rotation), -1));
}

/** How far a ring reaches out of a sheet or into its margin, mm; 0 where it keeps inside. */
export function reachOff(ring: readonly Vec2[], stock: Pick<Stock, 'width' | 'height' | 'outline' | 'margin'>): number {
  const { width, height, outline, margin } = stock;
  if (!outline) {
    const sides = ring.map(([x, y]) => Math.max(margin - x, margin - y, x - (width - margin), y - (height - margin)));
    return Math.max(0, ...sides);
  }
  const parts = convexParts(ring);
  const outside = trianglesRound(sheetRing(stock)).flatMap((far) => parts.map((part) => convexDepth(part, far)));
  const near = margin > 0 ? margin - ringDistance(ring, outline) : 0;
  return Math.max(0, near, ...outside);
}

/** Everything round a ring for a good way, as triangles. */
function trianglesRound(ring: readonly Vec2[]): readonly (readonly Vec2[])[] {
  const { minX, minY, maxX, maxY } = boxOf(ring);
  const far = 4 * (maxX - minX + maxY - minY);
  const points: readonly Vec2[] = [
    [minX - far, minY - far],
    [maxX + far, minY - far],
    [maxX + far, maxY + far],
    [minX - far, maxY + far],
    ...ring,
  ];
  const corners = earcut(points.flat(), [4]);
  return Array.from({ length: corners.length / 3 }, (_, t) => {
    const triangle = [0, 1, 2].map((k) => points[corners[3 * t + k] as number] as Vec2);
    return ringArea(triangle) < 0 ? triangle.reverse() : triangle;
  }).filter((triangle) => ringArea(triangle) > 0);
}
