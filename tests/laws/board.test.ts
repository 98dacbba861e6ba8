import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type PartPose, placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { ringArea } from '../../src/core/geometry/polygon.ts';
import { distance3, type Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import { checkNet } from '../../src/core/net/check-net.ts';
import { boardVolume } from '../../src/core/net/testing/board-volume.ts';
import type { BoardEdges } from '../../src/core/project/project.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

const flaps = { width: 6, on: 'none', clearance: 0.5, least: 2 } as const;
const edges = fc.constantFrom<BoardEdges>('square', 'mitred', 'butted');
const thickness = fc.double({ min: 0.3, max: 4, noNaN: true });

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  test('in board: true panels, glued seams, boards that meet and never run into each other, nothing beyond the shape; folded up, each on its face', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), thickness, edges, ({ solid, body }, thick, mode) => {
        const built = buildBoard(solid, { thickness: thick, edges: mode });
        if (!built.ok) {
          expect(['board-rolled', 'board-too-thick']).toContain(built.issues[0]?.code);
          expect(built.issues[0]?.code === 'board-rolled').toBe(solid.faces.some(({ roll }) => roll));
          return;
        }
        const { pieces, seams } = built.value;
        expect(checkNet(solid, built.value, flaps)).toEqual([]);
        expect(pieces.map(({ panels }) => panels.map(({ face }) => face))).toEqual(solid.faces.map((__, f) => [f]));
        expect(new Set(seams.map(({ join }) => join))).toEqual(new Set(seams.length > 0 ? ['glue'] : []));
        const pose = poseNet(solid, built.value, 1, {
          rest: 11,
          spots: arrangeOnTable([{ solid, net: built.value }], body)[0] ?? [],
        });
        for (const [p, { panels }] of pieces.entries()) {
          const [{ face, polygon }] = panels as [(typeof panels)[number]];
          polygon.forEach((point, k) => {
            const [x, y, z] = solid.vertices[solid.faces[face]?.loop[k] ?? -1] as Vec3;
            const there = placePoint(pose.pieces[p]?.panels[0] as PartPose, point);
            expect(distance3(there, [x, y, z + 11])).toBeLessThan(1e-6);
          });
        }
        for (const piece of pieces) {
          const { board, outline, panels } = piece;
          const { volume, open } = boardVolume(piece);
          expect(open).toEqual([]);
          expect(volume).toBeGreaterThan(0);
          expect(volume).toBeLessThanOrEqual(thick * ringArea(outline) * (1 + 1e-9));
          if (mode !== 'mitred') expect(volume).toBeCloseTo(thick * ringArea(outline), 6);
          expect(board?.edges.length).toBe(panels[0]?.polygon.length);
          expect(ringArea(outline)).toBeGreaterThanOrEqual(
            Math.max(ringArea(board?.outer ?? []), ringArea(board?.inner ?? [])) - 1e-6,
          );
          for (const { cut, bevel } of board?.edges ?? []) if (cut !== 'mitred') expect(bevel).toBe(0);
        }
      }),
      { numRuns: runsOver(panelsOf(kind), 5) },
    );
  });
});
