import { boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import type { Net } from './net.ts';

/** Space between pieces on the table, and between them and the body, mm. */
const GAP = 12;

/**
 * Where the pieces of one net lie on the table: in rows in front of the body (towards -y), the first row nearest to it, about
 * as wide as they are deep. The spots are those of the pieces' origins, mm, in the frame of the solid.
 */
export function arrangeOnTable(net: Net, body: Body | null): readonly Vec2[] {
  const front = body ? boxOf(body.outline).minY : 0;
  const overhang = Math.max(...net.pieces.map((piece) => piece.height)) / 2;
  const area = net.pieces.reduce((sum, { width, height }) => sum + (width + GAP) * (height + GAP), 0);
  const widest = Math.max(...net.pieces.map((piece) => piece.width));
  // Twice as wide as deep: screens are wide, and the body stands behind.
  const rowWidth = Math.max(widest, Math.sqrt(2 * area));
  const rows: number[][] = [];
  let used = Number.POSITIVE_INFINITY;
  net.pieces.forEach(({ width }, i) => {
    if (used + width > rowWidth) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)?.push(i);
    used += width + GAP;
  });

  const spots: Vec2[] = net.pieces.map(() => [0, 0]);
  let top = front - 2 * GAP - (body ? 0 : overhang);
  for (const row of rows) {
    const width = row.reduce((sum, i) => sum + (net.pieces[i]?.width ?? 0) + GAP, -GAP);
    const height = Math.max(...row.map((i) => net.pieces[i]?.height ?? 0));
    let x = -width / 2;
    for (const i of row) {
      spots[i] = [x, top - height];
      x += (net.pieces[i]?.width ?? 0) + GAP;
    }
    top -= height + GAP;
  }
  return spots;
}
