import { at } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import type { LaidSheet } from '../../src/core/layout/layout.ts';
import type { Net } from '../../src/core/net/net.ts';
import type { Production } from '../../src/core/pipeline.ts';
import type { DrawnRoof } from './arbitrary-roof.ts';

export interface Drawn {
  /** `isSeat`: the net is that of a seat, which has only some of the solid's faces. */
  readonly roof: Pick<DrawnRoof, 'solid'> & { readonly isSeat?: boolean };
  readonly net: Net;
  readonly production: Production;
  readonly sheet: LaidSheet;
}

/** A production of one roof with its pieces scattered over one large sheet, turned by quarters or at any angle, none on another. */
export function scatter(roof: Drawn['roof'], net: Net, turns: readonly number[], gap: number): Drawn {
  let [x, y, row] = [3, 2, 0];
  const reach = Math.max(...net.pieces.map(({ width, height }) => Math.hypot(width, height)));
  const placements = net.pieces.map(({ width, height }, piece) => {
    const rotation = at(turns, piece);
    const [c, s] = [Math.cos(rotation), Math.sin(rotation)];
    const corners = (
      [
        [0, 0],
        [width, 0],
        [width, height],
        [0, height],
      ] as const
    ).map(([u, v]): Vec2 => [c * u - s * v, s * u + c * v]);
    const [minX, maxX] = [Math.min(...corners.map((p) => p[0])), Math.max(...corners.map((p) => p[0]))];
    const [minY, maxY] = [Math.min(...corners.map((p) => p[1])), Math.max(...corners.map((p) => p[1]))];
    if (x + maxX - minX > 4 * reach) [x, y, row] = [3, y + row + gap, 0];
    const placement = { roof: 0, layer: 0, piece, copy: 0, x: x - minX, y: y - minY, rotation };
    x += maxX - minX + gap;
    row = Math.max(row, maxY - minY);
    return placement;
  });
  const sheet: LaidSheet = { stock: 0, index: 0, width: 4 * reach + 40, height: y + row + 200, used: 0, placements };
  const layer = {
    spec: { as: 'cover', stock: ['a'], pieces: 'per-panel' },
    thickness: 0,
    solid: roof.solid,
    net,
    ...(roof.isSeat ? { seat: true } : {}),
  };
  const production = {
    project: { ruler: '1mm', stock: [{ id: 'a', margin: 0 }] },
    roofs: [
      { spec: { title: 'Roof', copies: 1 }, made: { solid: roof.solid, layers: [layer], seat: null }, issues: [] },
    ],
  } as unknown as Production;
  return { roof, net, production, sheet };
}
