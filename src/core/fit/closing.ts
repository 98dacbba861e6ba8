import { add3, distance2, distance3, dot3, length3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Net } from '../net/net.ts';
import { faceFrame, flattenFace } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
import { HAIR_MM, isPositive } from '../tolerance.ts';
import type { Marks } from './marks.ts';

/** Most rounds of drawing the top points of panels together; it has come to rest long before. */
const ROUNDS = 100;

/** How a roof closes when its panels are cut where they were marked. */
export interface Closing {
  /** For each seam, in the order of the net, the length of both its sides as marked, mm. */
  readonly seams: readonly MarkedSeam[];
  /** For each top point the gap that is left between its panels, mm. */
  readonly peaks: readonly PeakGap[];
}

export interface MarkedSeam {
  /** Index into `solid.edges`. */
  readonly edge: number;
  readonly lengths: readonly [number, number];
}

export interface PeakGap {
  /** Index into `solid.vertices`. */
  readonly vertex: number;
  readonly gap: number;
}

export const mismatchOf = ({ lengths: [a, b] }: MarkedSeam): number => Math.abs(a - b);

/** The largest of some gaps, mm; 0 where there are none. */
export const worst = (gaps: readonly number[]): number => gaps.reduce((most, gap) => Math.max(most, gap), 0);

/**
 * How a roof closes when a maker has marked every corner of a panel. The two sides of a seam then differ in length. And where
 * panels meet at a top point, each hinged at its base, they come as near each other as they can; what is left between them is
 * the gap at the peak. Equal panels with equal rounding meet: the roof is only a little higher or lower than meant.
 */
export function closing(solid: Solid, net: Net, marks: Marks): Closing {
  const seams = net.seams.map(({ edge }): MarkedSeam => {
    const { faces, ends, via, length } = solid.edges[edge] as Solid['edges'][number];
    // A curve is drawn by its radius on both panels, and teeth take up what differs.
    if (via) return { edge, lengths: [length, length] };
    // On the inside of a slope a wall's line has marks of its own, so its ends are rounded like corners.
    const [a = 0, b = 0] = faces.map((f) =>
      solid.faces[f]?.roll ? marks.length(length) : distance2(marks.of(f, ends[0]), marks.of(f, ends[1])),
    );
    return { edge, lengths: [a, b] };
  });

  const sampling = new Set(solid.edges.flatMap((edge) => edge.via ?? []));
  const arcs = new Map<number, Arc[]>();
  solid.faces.forEach((face, f) => {
    // Where paper is rolled its straight lines are marked by their length alone.
    if (face.roll) return;
    const { origin, x, y } = faceFrame(solid, f);
    const base = Math.min(...flattenFace(solid, f).map((p: Vec2) => p[1]));
    for (const v of face.loop) {
      if (sampling.has(v) || !isPositive(solid.vertices[v]?.[2] ?? 0)) continue;
      const [along, up] = marks.of(f, v);
      const centre = add3(origin, add3(scale3(x, along), scale3(y, base)));
      arcs.set(v, [...(arcs.get(v) ?? []), { centre, axis: x, radius: up - base }]);
    }
  });
  return {
    seams,
    peaks: [...arcs]
      .filter(([, meeting]) => meeting.length > 1)
      .map(([vertex, meeting]) => ({ vertex, gap: gapBetween(meeting, solid.vertices[vertex] as Vec3) })),
  };
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
  let point = meant;
  for (let round = 0; round < ROUNDS; round++) {
    const next = scale3(arcs.map((arc) => nearestOnArc(arc, point)).reduce(add3), 1 / arcs.length);
    const step = distance3(next, point);
    point = next;
    if (step < HAIR_MM) break;
  }
  const ends = arcs.map((arc) => nearestOnArc(arc, point));
  return worst(ends.flatMap((p, i) => ends.slice(0, i).map((q) => distance3(p, q))));
}
