import { standOut } from '../footprint/offset.ts';
import { stepsFor } from '../geometry/arc.ts';
import { isInside } from '../geometry/polygon.ts';
import { length2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { buildBoard } from '../net/build-board.ts';
import { buildNet, type NetOptions } from '../net/build-net.ts';
import type { GlueLine, Net } from '../net/net.ts';
import { edgePoints, glueLinesOn } from '../net/seam-sides.ts';
import { ringsUnder } from '../net/trim-flaps.ts';
import { flattenSolid } from '../net/unfold.ts';
import type { LayerSpec, SeatSpec } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';
import { addCollar, type CollarPlan, collarUnderPlate, collarUnderSlopes } from './collar.ts';
import { growing } from './grow-solid.ts';
import { addPlate } from './plate.ts';

/** A collar under the roof that drops into its body or over it, and the plate that it may stand on. */
export interface MadeSeat {
  /** The roof's own faces and those of the seat; only these are cut here. */
  readonly solid: Solid;
  readonly net: Net;
  readonly faces: readonly number[];
  /** Its plan as it touches the walls, mm; round ones by their samples. */
  readonly plan: readonly Vec2[];
  /** Level of the foot of the collar in the frame of the solid, mm. */
  readonly foot: number;
  /** How deep it reaches below the top of the walls, mm; null without a body. */
  readonly depth: number | null;
}

export interface SeatPlace {
  /** The innermost layer, which the seat is glued to, and its surface on the inside. */
  readonly host: { readonly spec: LayerSpec; readonly solid: Solid; readonly net: Net };
  readonly inside: Solid;
  /** Thickness of the seat's own layer that counts, mm. */
  readonly thickness: number;
  /** Level of the top of the body's walls in the frame of the solid, mm; null without a body. */
  readonly wallTop: number | null;
  readonly firstMark: number;
}

/** The seat of a roof with its net. Fails with sentences where it cannot be made. */
export function makeSeat(seat: SeatSpec, { host, inside, thickness, wallTop, firstMark }: SeatPlace): Result<MadeSeat> {
  const touching = collarPlan(seat, seat.play);
  // Paper is bent along its middle; board is cut to its outside.
  const isBoard = seat.layer.as === 'board';
  const within = isBoard ? (seat.fits === 'inside' ? 0 : thickness) : thickness / 2;
  const bent = collarPlan(seat, seat.play + within);
  if (!touching.ok) return touching;
  if (!bent.ok) return bent;
  const grown = growing(inside);
  const plate = seat.plate ? addPlate(grown, inside) : null;
  if (plate && !plate.ok) return plate;
  const sides = plate
    ? succeed(collarUnderPlate(bent.value, plate.value.face, plate.value.level))
    : collarUnderSlopes(inside, bent.value);
  if (!sides.ok) return sides;
  if (plate && !liesOn(grown, plate.value.face, bent.value)) return fail(widerThanPlate);
  const lowest = Math.min(...sides.value.flatMap(({ top }) => top.flatMap(({ path }) => path.map((p) => p[2]))));
  const foot = lowest - seat.height;
  const depth = wallTop === null ? null : wallTop - foot;
  if (depth !== null && !isPositive(depth)) return fail(tooShort(-depth, seat.height));
  const walls = addCollar(grown, sides.value, foot);
  const faces = [...(plate ? [plate.value.face] : []), ...walls];
  const solid: Solid = { ...inside, ...grown };
  const taken = ringsUnder(flattenSolid(inside), gluedInside(host, inside), host.spec.flaps);
  const only = new Set(faces);
  const cut = isBoard
    ? buildBoard(solid, { thickness, edges: seat.layer.edges ?? 'butted', firstMark, only })
    : cutPaper(solid, { ...seat.layer, firstMark, only: { faces: only, taken } });
  if (!cut.ok) return fail(...cut.issues.map((issue) => ({ ...issue, path: `seat.${issue.path}` })));
  return succeed({ solid, net: cut.value, faces, plan: touching.value.corners, foot, depth }, cut.issues);
}

function cutPaper(solid: Solid, options: NetOptions): Result<Net> {
  const { net, issues } = buildNet(solid, options);
  return succeed(net, issues);
}

/** The flaps of the host, by seam and the face that carries each, as its inside surface counts its edges. */
function gluedInside({ solid, net }: SeatPlace['host'], inside: Solid): readonly (readonly [number, number])[] {
  const byId = new Map(inside.edges.map(({ id }, e) => [id, e] as const));
  const glued = new Map<string, readonly [number, number]>();
  for (const { edge, from } of net.pieces.flatMap((piece) => piece.flaps)) {
    const there = byId.get(solid.edges[edge]?.id ?? '');
    if (there !== undefined) glued.set(`${there} ${from}`, [there, from]);
  }
  return [...glued.values()];
}

/** The net of the layer that a seat is glued to, with the lines and letters along which it is. */
export function withSeatLines(
  host: Pick<SeatPlace['host'], 'solid' | 'net'>,
  { solid, net }: Pick<MadeSeat, 'solid' | 'net'>,
): Net {
  const foreign = net.seams.flatMap(({ edge, mark, sides }) => {
    const face = sides.find(({ piece }) => piece < 0)?.panel;
    return face === undefined || solid.edges[edge]?.role !== 'abutment' ? [] : [{ edge, mark, face }];
  });
  const pieces = host.net.pieces.map((piece) => ({
    ...piece,
    glueLines: [
      ...piece.glueLines,
      ...piece.panels.flatMap((panel, p) =>
        foreign
          .filter(({ face }) => face === panel.face)
          .flatMap(({ edge, mark }) =>
            glueLinesOn(host.solid, edgePoints(solid, edge), panel).map(
              (ends): GlueLine => ({ edge, mark, panel: p, ends }),
            ),
          ),
      ),
    ],
  }));
  return { ...host.net, pieces };
}

/** The plan that a seat touches, so much within the inside of the body or without its outside. */
function collarPlan({ fits, plan, isRound }: SeatSpec, by: number): Result<CollarPlan> {
  const out = fits === 'inside' ? -by : by;
  if (isRound) {
    const radius = length2(plan[0] as Vec2) + out;
    if (!isPositive(radius)) return fail(noRoom(by));
    const count = 4 * stepsFor(radius, Math.PI / 2);
    const corners = Array.from({ length: count }, (_, i): Vec2 => {
      const angle = (2 * Math.PI * i) / count - Math.PI / 2;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    return succeed({ corners, isRound });
  }
  const moved = standOut(
    { corners: plan },
    plan.map(() => out),
  );
  return moved.ok ? succeed({ corners: moved.value.corners, isRound }) : fail(noRoom(by));
}

/** Whether the whole plan of a collar lies on the plate. */
function liesOn(
  { vertices, faces }: Pick<Solid, 'vertices' | 'faces'>,
  plate: number,
  { corners }: CollarPlan,
): boolean {
  const ring = (faces[plate]?.loop ?? []).map((v): Vec2 => [vertices[v]?.[0] ?? 0, vertices[v]?.[1] ?? 0]);
  return corners.every((p) => isInside(p, ring)) && !ring.some((p) => isInside(p, corners));
}

const noRoom = (by: number): Issue => ({
  level: 'error',
  code: 'seat-no-room',
  path: 'seat',
  numbers: { by },
  message: 'With {by} of play and thickness nothing is left of the plan of the seat, or its sides would cross.',
  remedy: 'Make the play less, or the inside of the body wider.',
});

const tooShort = (by: number, height: number): Issue => ({
  level: 'error',
  code: 'seat-too-short',
  path: 'seat.height',
  numbers: { by, height, needed: height + by },
  message:
    'The collar is {height} high where it is lowest and ends {by} above the top of the walls: it reaches nowhere.',
  remedy: 'Make it higher than {needed}.',
});

const widerThanPlate: Issue = {
  level: 'error',
  code: 'seat-outside-roof',
  path: 'seat',
  message: 'The collar of the seat stands out beyond the plate at the eaves.',
  remedy: 'Let the roof stand out farther over the body, or let the collar go inside it.',
};
