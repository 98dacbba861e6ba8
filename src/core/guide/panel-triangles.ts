import { at } from '../geometry/polygon.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { faceFrame, flattenFace } from '../solid/face-frame.ts';
import { edgesOfFaces } from '../solid/measure.ts';
import type { Edge, EdgeRole, Solid } from '../solid/solid.ts';
import { isPositive, isSameLength } from '../tolerance.ts';

/** The upright triangle in a panel: up, across in plan, and along its middle; mm. */
export interface UprightTriangle {
  readonly rise: number;
  readonly run: number;
  readonly slant: number;
}

/** The triangle that lies in a panel at one of its slanted edges; mm. */
export interface EdgeTriangle {
  readonly role: EdgeRole;
  /** Level: of a pointed panel half the eave. */
  readonly along: number;
  /** Up the panel. */
  readonly up: number;
  /** Of the edge. */
  readonly length: number;
  /** How many edges of the panel have it. */
  readonly count: number;
  /** `along` is half of the panel's low edge. */
  readonly isHalfEave: boolean;
}

export interface PanelTriangles {
  /** Null where the panel is level, upright or leans out: then it is its own plan or elevation. */
  readonly upright: UprightTriangle | null;
  readonly edges: readonly EdgeTriangle[];
  /** The panel laid flat, its fall line up the page, lower left at the origin. */
  readonly flat: readonly Vec2[];
}

/**
 * The right triangles that make a flat panel (Euclid I.47): rise and run make its slant, and the way along with the way up make
 * each slanted edge. Null where the panel is rolled.
 */
export function panelTriangles(solid: Solid, face: number): PanelTriangles | null {
  const asked = solid.faces[face];
  if (!asked || asked.roll) return null;
  const own = flattenFace(solid, face);
  const [left, low] = [Math.min(...own.map(([x]) => x)), Math.min(...own.map(([, y]) => y))];
  const flat = own.map(([x, y]): Vec2 => [x - left, y - low]);
  const slant = Math.max(...flat.map(([, y]) => y));
  const { normal } = faceFrame(solid, face);
  const [rise, run] = [slant * Math.hypot(normal[0], normal[1]), slant * normal[2]];
  const lowEdge = flat.reduce((most, [x, y], i) => {
    const [u, v] = at(flat, i + 1);
    return isPositive(y) || isPositive(v) ? most : Math.max(most, Math.abs(u - x));
  }, 0);
  const found: EdgeTriangle[] = [];
  (edgesOfFaces(solid)[face] ?? []).forEach((edge, i) => {
    const [p, q] = [at(flat, i), at(flat, i + 1)];
    const [along, up] = [Math.abs(q[0] - p[0]), Math.abs(q[1] - p[1])];
    const { role, via } = solid.edges[edge] as Edge;
    // No triangle makes a curve.
    if (via || !isPositive(along) || !isPositive(up)) return;
    const like = found.findIndex(
      (one) => one.role === role && isSameLength(one.along, along) && isSameLength(one.up, up),
    );
    const known = found[like];
    if (known) found[like] = { ...known, count: known.count + 1 };
    else
      found.push({
        role,
        along,
        up,
        length: Math.hypot(along, up),
        count: 1,
        isHalfEave: isSameLength(2 * along, lowEdge),
      });
  });
  const isSloped = isPositive(rise) && isPositive(run);
  return { upright: isSloped ? { rise, run, slant } : null, edges: found, flat };
}
