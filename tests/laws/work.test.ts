import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cross, type FlatPart, flatPart } from '../../src/core/fold/crossing.ts';
import { type PartPose, placePoint, poseNet } from '../../src/core/fold/pose.ts';
import { FOLDED } from '../../src/core/fold/stops.ts';
import { planWork } from '../../src/core/fold/work-plan.ts';
import { at } from '../../src/core/geometry/polygon.ts';
import type { Vec2, Vec3 } from '../../src/core/geometry/vector.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Piece } from '../../src/core/net/net.ts';
import type { Body, FlapSides } from '../../src/core/project/project.ts';
import { isFootOnFace } from '../../src/core/solid/measure.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { isAtMost, isSameLength } from '../../src/core/tolerance.ts';
import { arbitraryRoof, kinds, panelsOf } from './arbitrary-roof.ts';
import { runsOver } from './runs.ts';

/** Looks at the work of going on, evenly in time. */
const LOOKS = 60;

const sides = fc.constantFrom<FlapSides>('alternate', 'one-side');
const height = 60;

/** Walls and top of a body that stands on the table. */
const bodyParts = ({ outline }: Body): FlatPart[] => [
  flatPart(outline.map(([x, y]): Vec3 => [x, y, height])),
  ...outline.map(([x, y], i) => {
    const [u, v] = at(outline, i + 1);
    return flatPart([
      [x, y, 0],
      [u, v, 0],
      [u, v, height],
      [x, y, height],
    ]);
  }),
];

/** Walls stand first: what rests level on one, a slope or the gable over it, puts its flap behind it from above. */
const restsOnWall = ({ vertices, faces, edges }: Solid, edge: number, wall: number): boolean => {
  const { ends, role } = edges[edge] as Solid['edges'][number];
  const [a, b] = ends.map((v) => (vertices[v] as Vec3)[2]) as [number, number];
  const isTop = isSameLength(a, b) && faces[wall]?.loop.every((v) => isAtMost((vertices[v] as Vec3)[2], a));
  return faces[wall]?.part === 'wall' && (role === 'eave' || isTop === true);
};

describe.each(kinds.map((kind) => [kind.id, kind] as const))('every %s', (_, kind) => {
  const counts = { numRuns: runsOver(panelsOf(kind), 2) };

  test('goes on piece by piece: what carries a flap before what it goes under, unless flaps go round', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), ({ solid }) => {
        const { net } = buildNet(solid, {
          pieces: 'per-panel',
          flaps: { width: 5, on: 'alternate', clearance: 0.5, least: 2 },
        });
        const [plan] = planWork([{ solid, net }], null, 0);
        const order = plan?.order ?? [];
        expect([...order].sort((a, b) => a - b)).toEqual(net.pieces.map((__, p) => p));
        const pieceOf = (face: number): number =>
          net.pieces.findIndex((piece) => piece.panels.some((panel) => panel.face === face));
        // A piece that carries no flap goes on after every flap that lies under it.
        net.pieces.forEach(({ flaps }, p) => {
          for (const { to, edge } of flaps) {
            const mate = pieceOf(to);
            if (restsOnWall(solid, edge, to) || isFootOnFace(solid, edge) || (net.pieces[mate]?.flaps.length ?? 0) > 0)
              continue;
            expect(order.indexOf(p)).toBeLessThan(order.indexOf(mate));
          }
        });
        // Nothing of its own part of the roof comes after the piece that closes it.
        const last = net.closing ? order.indexOf(net.closing.piece) : -1;
        const beside = net.seams.flatMap(({ sides: [a, b] }) =>
          a.piece === net.closing?.piece ? [b.piece] : b.piece === net.closing?.piece ? [a.piece] : [],
        );
        const standsOn = solid.edges.some((edge) => edge.role === 'abutment');
        if (!standsOn) for (const piece of beside) expect(order.indexOf(piece)).toBeLessThanOrEqual(last);
      }),
      counts,
    );
  });

  test('passes through neither the body nor what is on already, wherever a free way was found', () => {
    fc.assert(
      fc.property(arbitraryRoof(kind), sides, ({ solid, body: drawn }, on) => {
        if (solid.faces.some((face) => face.roll)) return;
        const body = drawn && !drawn.courts ? { ...drawn, height } : null;
        const { net } = buildNet(solid, { pieces: 'per-panel', flaps: { width: 5, on, clearance: 0.5, least: 2 } });
        // Over its body as it would rest, or as high over the table.
        const rest = height + 20 - Math.min(...solid.vertices.map((v) => v[2]));
        const [plan] = planWork([{ solid, net }], body, rest);
        if (!plan) throw new Error('no plan');
        const place = { rest, spots: arrangeOnTable([{ solid, net }], body)[0] ?? [], plan };
        const end = poseNet(solid, net, 1, place);
        const partsAt = (p: number, poses: typeof end): FlatPart[] => {
          const piece = net.pieces[p] as Piece;
          const of = (polygon: readonly Vec2[], pose: PartPose): FlatPart =>
            flatPart(polygon.map((q) => placePoint(pose, q)));
          return piece.panels.map(({ polygon }, i) => of(polygon, poses.pieces[p]?.panels[i] as PartPose));
        };
        const still = body ? bodyParts(body) : [];
        const step = (1 - FOLDED) / LOOKS;
        for (const p of plan.order) {
          if (plan.approaches[p]?.isFree) {
            const final = partsAt(p, end);
            const meeting = final.map((part) => still.filter((other) => cross(part, [0, 0, 0], other)));
            for (let t = FOLDED; t < 1; t += step) {
              partsAt(p, poseNet(solid, net, t, place)).forEach((part, i) => {
                const hit = still.some((other) => !meeting[i]?.includes(other) && cross(part, [0, 0, 0], other));
                expect(hit, `${net.pieces[p]?.id} at ${t}`).toBe(false);
              });
            }
          }
          still.push(...partsAt(p, end));
        }
      }),
      { numRuns: runsOver(panelsOf(kind), 1) },
    );
  });
});
