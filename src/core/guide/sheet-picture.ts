import { cutLayers } from '../cut-layers.ts';
import { at, boxOf, ringArea } from '../geometry/polygon.ts';
import { apply2, type Rigid2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { LaidSheet } from '../layout/layout.ts';
import type { Piece } from '../net/net.ts';
import type { Production } from '../pipeline.ts';
import type { Stretch } from './hidden-lines.ts';
import type { LinePicture } from './line-picture.ts';

/** A sheet with its pieces as lines, and where each piece's number stands; mm of the sheet, y up. */
export interface SheetPicture extends LinePicture {
  /** One for each placement. */
  readonly spots: readonly Vec2[];
}

export function sheetPicture(production: Production, sheet: LaidSheet): SheetPicture {
  const edge: readonly Vec2[] = sheet.outline ?? [
    [0, 0],
    [sheet.width, 0],
    [sheet.width, sheet.height],
    [0, sheet.height],
  ];
  const laid = sheet.placements.flatMap(({ roof, layer, piece, x, y, rotation }) => {
    const made = production.roofs[roof];
    const own = made ? cutLayers(made)[layer]?.net.pieces[piece] : undefined;
    const motion: Rigid2 = { cos: Math.cos(rotation), sin: Math.sin(rotation), move: [x, y] };
    return own ? [{ ring: own.outline.map((p) => apply2(motion, p)), spot: apply2(motion, middleOf(own)) }] : [];
  });
  return {
    lines: [edge, ...laid.map(({ ring }) => ring)].flatMap(sidesOf),
    box: boxOf(edge),
    spots: laid.map(({ spot }) => spot),
  };
}

const sidesOf = (ring: readonly Vec2[]): Stretch[] => ring.map((p, i) => [p, at(ring, i + 1)]);

/** The middle of the largest panel; of a strip that of all. */
function middleOf({ panels, outline }: Piece): Vec2 {
  const rings = panels.map(({ polygon }) => polygon);
  const ring = rings.reduce(
    (most, one) => (Math.abs(ringArea(one)) > Math.abs(ringArea(most)) ? one : most),
    rings[0] ?? outline,
  );
  const area = ringArea(ring);
  let [x, y] = [0, 0];
  ring.forEach((p, i) => {
    const q = at(ring, i + 1);
    const cross = p[0] * q[1] - q[0] * p[1];
    x += ((p[0] + q[0]) * cross) / (6 * area);
    y += ((p[1] + q[1]) * cross) / (6 * area);
  });
  return [x, y];
}
