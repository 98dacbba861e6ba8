import { boxOf } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import type { Net, Piece } from './net.ts';

/** Space between pieces on the table, and between them and the body, mm. */
const GAP = 12;

/**
 * Where the pieces of a roof's layers lie on the table: in rows in front of body and roof (towards -y), the first layer's first
 * row nearest to them, every layer about twice as wide as deep. For each layer the spots of its pieces' origins, mm, in the frame
 * of the solid.
 */
export function arrangeOnTable(
  layers: readonly { readonly solid: Solid; readonly net: Net }[],
  body: Body | null,
): readonly (readonly Vec2[])[] {
  const plan = [...(body?.outline ?? []), ...layers.flatMap(({ solid }) => solid.vertices)];
  let top = boxOf(plan).minY - 2 * GAP;
  return layers.map(({ net: { pieces } }) => {
    const spots: Vec2[] = pieces.map(() => [0, 0]);
    for (const row of rowsOf(pieces)) {
      const width = row.reduce((sum, i) => sum + (pieces[i]?.width ?? 0) + GAP, -GAP);
      const height = Math.max(...row.map((i) => pieces[i]?.height ?? 0));
      let x = -width / 2;
      for (const i of row) {
        spots[i] = [x, top - height];
        x += (pieces[i]?.width ?? 0) + GAP;
      }
      top -= height + GAP;
    }
    return spots;
  });
}

/** Indices of the pieces row by row. */
function rowsOf(pieces: readonly Piece[]): readonly (readonly number[])[] {
  const area = pieces.reduce((sum, { width, height }) => sum + (width + GAP) * (height + GAP), 0);
  const widest = Math.max(...pieces.map((piece) => piece.width));
  // Twice as wide as deep: screens are wide, and the body stands behind.
  const rowWidth = Math.max(widest, Math.sqrt(2 * area));
  const rows: number[][] = [];
  let used = Number.POSITIVE_INFINITY;
  pieces.forEach(({ width }, i) => {
    if (used + width > rowWidth) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)?.push(i);
    used += width + GAP;
  });
  return rows;
}
