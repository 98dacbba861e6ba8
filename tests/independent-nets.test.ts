import { intersection, setPrecision, union } from 'polyclip-ts';
import { describe, expect, test } from 'vitest';
import { sampleFiles } from '../scripts/samples.ts';
import { areApart, boxOf, ringArea, ringLength } from '../src/core/geometry/polygon.ts';
import type { Vec2 } from '../src/core/geometry/vector.ts';
import { makeRoof, sheetRooms } from '../src/core/make-roof.ts';
import { buildNet } from '../src/core/net/build-net.ts';
import type { Piece } from '../src/core/net/net.ts';
import type { PiecesMode } from '../src/core/project/project.ts';
import { readProject } from '../src/core/project/read-project.ts';

type Polygon = [number, number][][];
/** The library loses its way where two points differ in the last digits: it gets them on a grid, and takes nearer ones for one. */
const GRID = 1e-6;
setPrecision(GRID / 10);
/** Two sides rounded by up to 0.71 steps each share, or leave between them, a sliver as long as the edge, mm². */
const sliver = (...rings: readonly (readonly Vec2[])[]): number =>
  1.42 * GRID * rings.reduce((sum, ring) => sum + ringLength(ring), 0);
const onGrid = (part: number): number => Number((Math.round(part / GRID) * GRID).toFixed(7));
const polygon = (ring: readonly Vec2[]): Polygon => [ring.map(([x, y]): [number, number] => [onGrid(x), onGrid(y)])];
/** Of what the library gives: outer rings less holes. */
const areaOf = (parts: readonly Polygon[]): number =>
  parts.reduce(
    (sum, rings) => sum + rings.reduce((area, ring, i) => area + (i === 0 ? 1 : -1) * Math.abs(ringArea(ring)), 0),
    0,
  );

/** Every net of the samples, and of the same roofs in every mode of pieces. */
const nets = sampleFiles().flatMap(({ name, text }) => {
  const reading = readProject(text);
  if (!reading.ok) throw new Error(name);
  const { project } = reading.value;
  return project.roofs.flatMap((spec, index) =>
    (makeRoof(spec, project, index).made?.layers ?? []).map(({ spec: layer, solid, net }) => ({
      name: `${name}: ${spec.title}, ${layer.as}`,
      pieces: [
        ...net.pieces,
        ...(['one-piece', 'per-panel', 'fewest'] as const satisfies readonly PiecesMode[]).flatMap(
          (pieces) => buildNet(solid, { ...layer, pieces, sheets: sheetRooms(project, layer) }).net.pieces,
        ),
      ],
    })),
  );
});

const partsOf = (piece: Piece): readonly (readonly Vec2[])[] =>
  [...piece.panels, ...piece.flaps, ...(piece.hems ?? [])].map((part) => part.polygon);

describe.each(nets.map(({ name, pieces }) => [name, pieces] as const))('%s', (_, pieces) => {
  test('no panel or flap covers another, by the account of a polygon library that the program does not use', () => {
    for (const piece of pieces) {
      const parts = partsOf(piece);
      const boxes = parts.map(boxOf);
      parts.forEach((a, i) => {
        parts.slice(0, i).forEach((b, j) => {
          if (areApart(boxes[i] as (typeof boxes)[number], boxes[j] as (typeof boxes)[number])) return;
          const shared = areaOf(intersection(polygon(a), polygon(b)) as Polygon[]);
          expect(shared, piece.title).toBeLessThanOrEqual(sliver(a));
        });
      });
    }
  });

  test('the outline is all of them together; of board, the wider of its two surfaces', () => {
    for (const piece of pieces) {
      if (piece.board) {
        const { outer, inner } = piece.board;
        const whole = areaOf(union(polygon(piece.outline), polygon(outer), polygon(inner)) as Polygon[]);
        const narrow = Math.max(ringArea(outer), ringArea(inner));
        expect(Math.abs(whole - ringArea(piece.outline)), piece.title).toBeLessThanOrEqual(sliver(piece.outline));
        expect(narrow, piece.title).toBeLessThanOrEqual(whole + sliver(piece.outline));
        continue;
      }
      const [first, ...rest] = partsOf(piece).map(polygon);
      const together = areaOf(union(first as Polygon, ...rest) as Polygon[]);
      const apart = partsOf(piece).reduce((sum, ring) => sum + ringArea(ring), 0);
      const off = sliver(...partsOf(piece));
      expect(Math.abs(together - apart), piece.title).toBeLessThanOrEqual(off);
      expect(Math.abs(together - ringArea(piece.outline)), piece.title).toBeLessThanOrEqual(off);
    }
  });
});
