import { dot3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import { sectorOfEdge } from '../layers/offset-mesh.ts';
import type { BoardEdges } from '../project/project.ts';
import { faceFrame } from '../solid/face-frame.ts';
import { edgesOfFaces, isFootOnFace } from '../solid/measure.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { isSameLength, NOISE_RAD } from '../tolerance.ts';

/**
 * How one edge of a panel of board is cut. Distances in mm from where the outside surfaces meet, into the panel; they are equal
 * where the edge is cut square to the board.
 */
export interface BoardEdgeCut {
  /** Index into `solid.edges`. */
  readonly edge: number;
  readonly cut: BoardEdges;
  /** Where the panel's outside ends. */
  readonly outer: number;
  /** Where its inside ends. */
  readonly inner: number;
  /** Tilt of the blade from square, radians: over 0 the outside is wider than the inside, under 0 the inside is. */
  readonly bevel: number;
  /** Angle of the edge to the panel's fall line, 0 to a right angle, radians: what a mitre gauge is set to; null along a level edge. */
  readonly mitre: number | null;
  /** Of a butted edge: this panel runs on over the edge of the other, or ends under it. */
  readonly lap?: 'over' | 'under';
}

/**
 * For each face the cuts of its edges, in the order of its loop. Two boards of one thickness over an inside angle of their
 * outside surfaces: their inside surfaces meet at thickness / tan(angle / 2) from where the outside ones do. Square: on a hip
 * each ends there, in a valley at the line of the outside. Mitred: from the one line to the other. Butted: one runs to the
 * outside of the other, which ends at the inside of the first. A free edge ends in the level plane of its eave, or the upright
 * plane of its verge. `laps`: the face that laps the other at an edge.
 */
export function boardCuts(
  solid: Solid,
  { thickness, mode, only }: Pick<Asked, 'thickness' | 'mode'> & { readonly only?: ReadonlySet<number> | undefined },
  laps: (edge: number) => number | undefined,
): readonly (readonly BoardEdgeCut[])[] {
  return edgesOfFaces(solid).map((edges, face) =>
    only?.has(face) === false
      ? []
      : edges.map((edge): BoardEdgeCut => {
          const own = solid.edges[edge] as Edge;
          const isForeign = only !== undefined && own.faces.some((f) => !only.has(f));
          const ends = endsAt(solid, own, face, edge, { thickness, mode, lapping: laps(edge), isForeign });
          return { edge, ...ends, bevel: bevelOf(ends, thickness), mitre: mitreOf(solid, own, face) };
        }),
  );
}

type Ends = Pick<BoardEdgeCut, 'cut' | 'outer' | 'inner' | 'lap'>;

interface Asked {
  readonly thickness: number;
  readonly mode: BoardEdges;
  readonly lapping: number | undefined;
  /** The other face is the surface of another layer, with no board of its own to stand off. */
  readonly isForeign: boolean;
}

function endsAt(
  solid: Solid,
  edge: Edge,
  face: number,
  index: number,
  { thickness, mode, lapping, isForeign }: Asked,
): Ends {
  const square = (far: number): Ends => ({ cut: 'square', outer: far, inner: far });
  const slanted = (outer: number, inner: number): Ends =>
    mode === 'mitred' ? { cut: 'mitred', outer, inner } : square(Math.max(outer, inner));
  const { dihedral, role } = edge;
  if (dihedral === null) return slanted(0, thickness / Math.tan(freeAngle(solid, face, index)));
  if (role === 'abutment' || isForeign) {
    // Under a slope the wall ends at the inside of its board, if it does not already; on one it stands.
    const stands = isForeign || isFootOnFace(solid, index);
    const down = stands ? 0 : (thickness - (edge.inset ?? 0)) / Math.sin(dihedral);
    return slanted(down, down + thickness / Math.tan(dihedral));
  }
  const inside = thickness / Math.tan(dihedral / 2);
  if (mode === 'mitred') return slanted(0, inside);
  if (mode === 'square' || dihedral > Math.PI || lapping === undefined) return square(Math.max(0, inside));
  // Over a sharp edge the lapped board ends where its inside meets that of the other, over a blunt one at the other's inner edge.
  const isSharp = dihedral < Math.PI / 2;
  const over = isSharp ? thickness / Math.tan(dihedral) : 0;
  const under = isSharp ? inside : thickness * Math.sin(dihedral);
  const far = lapping === face ? over : under;
  return { cut: 'butted', outer: far, inner: far, lap: lapping === face ? 'over' : 'under' };
}

/** Inside angle between a face and the plane in which it ends at a free edge, radians. */
function freeAngle(solid: Solid, face: number, edge: number): number {
  const plane = sectorOfEdge(solid, edge).plane;
  if (!plane) throw new Error('a free edge ends in a plane');
  return Math.acos(Math.max(-1, Math.min(1, -dot3(faceFrame(solid, face).normal, plane.normal))));
}

function bevelOf({ outer, inner }: Ends, thickness: number): number {
  return isSameLength(outer, inner) ? 0 : Math.atan2(inner - outer, thickness);
}

function mitreOf({ vertices, faces }: Solid, { ends }: Edge, face: number): number | null {
  const { x, y } = faceFrame({ vertices, faces }, face);
  const [a, b] = ends.map((v) => vertices[v] as Vec3) as [Vec3, Vec3];
  const along = sub3(b, a);
  const way = scale3(along, 1 / Math.hypot(...along));
  const [level, up] = [Math.abs(dot3(way, x)), Math.abs(dot3(way, y))];
  return up <= NOISE_RAD ? null : Math.atan2(level, up);
}
