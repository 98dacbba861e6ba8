import type { Vec3 } from '../geometry/vector.ts';
import type { Roll } from './roll.ts';

/**
 * What an edge is to a roofer.
 * eave: low edge of a slope, or the outer edge of a level deck · ridge: level top edge · hip: slanted, outside angle · valley: slanted, inside angle ·
 * verge: slanted edge at a gable · break: where the pitch changes within one side · abutment: the edge of a wall that
 * meets a slope away from the slope's edges · rim: edge of an open top · foot: lower edge of a wall panel.
 */
export type EdgeRole = 'eave' | 'ridge' | 'hip' | 'valley' | 'verge' | 'break' | 'abutment' | 'rim' | 'foot';

/**
 * One flat or smooth face. Its loop runs counter-clockwise seen from outside and is not closed (first index not repeated);
 * along the curves of a smooth face it is sampled.
 */
export interface Face {
  readonly id: string;
  readonly title: string;
  readonly loop: readonly number[];
  /** A fascia hangs from an eave; its foot may lie under the eave plane. */
  readonly part: 'slope' | 'wall' | 'fascia';
  /** Faces that rise from one eave edge share this; `per-panel` keeps them in one piece. */
  readonly side: string;
  /** How a smooth face is rolled from flat paper; missing: the face is flat. */
  readonly roll?: Roll;
}

export interface Edge {
  readonly id: string;
  /** Vertex indices, in the direction of the first face's loop. */
  readonly ends: readonly [number, number];
  /** The vertices between the ends of a curved edge, in order; missing: the edge is straight. */
  readonly via?: readonly number[];
  /**
   * Face indices, one or two. Both faces run along the edge, except at an abutment: there the first face is the wall
   * that ends in the edge and the second the slope whose inside it meets.
   */
  readonly faces: readonly number[];
  readonly role: EdgeRole;
  /** mm; along the curve where it is curved. */
  readonly length: number;
  /**
   * Inside angle between the two faces, radians: under pi on a hip or ridge, over pi in a valley; null with one face.
   * At an abutment: between the wall and the part of the slope that lies inside the building, or where the wall stands on the
   * slope, behind the wall.
   */
  readonly dihedral: number | null;
  /**
   * At an abutment, mm: how far the wall ends behind the face that it meets, or before it where it stands on it, since what lies
   * there has a thickness; missing: it ends in the face.
   */
  readonly inset?: number;
  /** At an abutment: another layer lies between the wall and the face, and the wall is glued to that one. */
  readonly isBehind?: true;
}

/**
 * A roof in 3D. Frame: mm, z up, z = 0 at the level eave plane, y to the back (north), x to the right (east).
 * Topology lives in the indices; coordinates are stored once. Open at the eave.
 */
export interface Solid {
  readonly vertices: readonly Vec3[];
  readonly faces: readonly Face[];
  readonly edges: readonly Edge[];
  /**
   * Slopes face down where the roof swells out over its own eave, from its foot or in a roof that stands above; every other roof
   * has one level over each point of its plan.
   */
  readonly overhangs?: 'from-foot' | 'above';
}

/** The vertices of an edge from end to end. */
export const edgePath = ({ ends: [a, b], via = [] }: Edge): readonly number[] => [a, ...via, b];

/** Whether a face is joined at an edge: not one under which the other ends behind another layer. */
export const isJoinedAt = ({ isBehind, faces }: Pick<Edge, 'isBehind' | 'faces'>, face: number): boolean =>
  !(isBehind && faces[1] === face);

/** Whether a face's loop runs along an edge: at an abutment only that of the wall does. */
export const boundsFace = ({ role, faces }: Pick<Edge, 'role' | 'faces'>, face: number): boolean =>
  role === 'abutment' ? faces[0] === face : faces.includes(face);
