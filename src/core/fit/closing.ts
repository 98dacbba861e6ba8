import { at } from '../geometry/polygon.ts';
import { add3, distance2, distance3, dot3, length3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Net } from '../net/net.ts';
import { faceFrame, flattenFace } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';
import { type Ruler, roundToRuler } from '../units/units.ts';

/** Rounds of drawing the top points of panels together; the gap has settled to a hundredth of a millimetre long before. */
const ROUNDS = 100;

/**
 * How a roof closes when a maker marks every corner of a panel by its distance along the base and its height over it, each
 * rounded to the ruler, mm. The two sides of a seam then differ in length (`seamMismatch`). And where panels meet at a top
 * point, each hinged at its base, they come as near each other as they can; what is left between them is the `peakGap`.
 * Equal panels with equal rounding meet: the roof is only a little higher or lower than meant.
 */
export function closing(solid: Solid, net: Net, ruler: Ruler): { seamMismatch: number; peakGap: number } {
  const marked = solid.faces.map((_, f) => markedPanel(solid, f, ruler));
  const mismatches = net.seams.map(({ edge }) => {
    const { faces, ends, via, length } = solid.edges[edge] as Solid['edges'][number];
    // A curve is drawn by its radius on both panels, and teeth take up what differs.
    if (via) return 0;
    // On the inside of a slope a wall's line has marks of its own, so its ends are rounded like corners.
    const [a, b] = faces.map((f) =>
      solid.faces[f]?.roll
        ? roundToRuler(length, ruler).mark
        : distance2(...(ends.map((v) => markOf(solid, f, v, ruler)) as [Vec2, Vec2])),
    );
    return Math.abs((a ?? 0) - (b ?? 0));
  });

  const sampling = new Set(solid.edges.flatMap((edge) => edge.via ?? []));
  const arcs = new Map<number, Arc[]>();
  solid.faces.forEach((face, f) => {
    // Where paper is rolled its straight lines are marked by their length alone.
    if (face.roll) return;
    const { origin, x, y } = faceFrame(solid, f);
    const base = Math.min(...flattenFace(solid, f).map((p) => p[1]));
    face.loop.forEach((v, i) => {
      if (sampling.has(v)) return;
      if (!isPositive(solid.vertices[v]?.[2] ?? 0)) return;
      const [along, up] = at(marked[f] as Vec2[], i);
      const centre = add3(origin, add3(scale3(x, along), scale3(y, base)));
      arcs.set(v, [...(arcs.get(v) ?? []), { centre, axis: x, radius: up - base }]);
    });
  });
  const gaps = [...arcs].map(([v, meeting]) => gapBetween(meeting, solid.vertices[v] as Vec3));
  return { seamMismatch: Math.max(0, ...mismatches), peakGap: Math.max(0, ...gaps) };
}

/** Where a corner of a panel can be while the panel turns about its base. */
interface Arc {
  readonly centre: Vec3;
  readonly axis: Vec3;
  readonly radius: number;
}

function nearestOnArc({ centre, axis, radius }: Arc, point: Vec3): Vec3 {
  const away = sub3(point, centre);
  const out = sub3(away, scale3(axis, dot3(away, axis)));
  const distance = length3(out);
  return distance === 0 ? centre : add3(centre, scale3(out, radius / distance));
}

/** Largest distance that is left between points on the arcs drawn together from where they should meet. */
function gapBetween(arcs: readonly Arc[], meant: Vec3): number {
  if (arcs.length < 2) return 0;
  let point = meant;
  for (let round = 0; round < ROUNDS; round++) {
    point = scale3(arcs.map((arc) => nearestOnArc(arc, point)).reduce(add3), 1 / arcs.length);
  }
  const ends = arcs.map((arc) => nearestOnArc(arc, point));
  return Math.max(...ends.flatMap((p, i) => ends.slice(0, i).map((q) => distance3(p, q))));
}

/** A panel as set out with the ruler, in the face's own frame, the middle of its base where it should be. */
const markedPanel = (solid: Solid, face: number, ruler: Ruler): Vec2[] =>
  (solid.faces[face]?.loop ?? []).map((v) => markOf(solid, face, v, ruler));

/** A point of a face's plane as marked: its distance along the base and its height over it, each on the nearest mark. */
function markOf(solid: Solid, face: number, vertex: number, ruler: Ruler): Vec2 {
  const flat = flattenFace(solid, face);
  const left = Math.min(...flat.map((p) => p[0]));
  const right = Math.max(...flat.map((p) => p[0]));
  const bottom = Math.min(...flat.map((p) => p[1]));
  const { origin, x, y } = faceFrame(solid, face);
  const away = sub3(solid.vertices[vertex] as Vec3, origin);
  const mark = (mm: number): number => roundToRuler(mm, ruler).mark;
  const shift = (right - left - mark(right - left)) / 2;
  return [left + shift + mark(dot3(away, x) - left), bottom + mark(dot3(away, y) - bottom)];
}
