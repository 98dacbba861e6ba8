import { at, isInside } from '../../src/core/geometry/polygon.ts';
import { cross3, dot3, scale3, sub3, type Vec2, type Vec3 } from '../../src/core/geometry/vector.ts';
import { facetsOf, newellNormal } from '../../src/core/solid/face-frame.ts';
import { type Edge, edgePath, type Face, type Solid } from '../../src/core/solid/solid.ts';
import { isSameAngle } from '../../src/core/tolerance.ts';

const THIRD = 1 / Math.sqrt(3);
const HALF = 1 / Math.sqrt(2);
/** Isometric: from the front, the right and above, all alike. */
const toEye: Vec3 = [THIRD, -THIRD, THIRD];
const toRight: Vec3 = [HALF, HALF, 0];
const toTop: Vec3 = cross3(toEye, toRight);

/** Size of a drawing without its border, and the border, pixels. */
const SIZE = 220;
const BORDER = 10;
/** As shares of the roof's size: lines shorter than this are points; how far beside a line to look; how far behind is hidden. */
const TOUCH = 1e-6;
const BESIDE = 1e-4;
const BEHIND = 1e-3;

const see = (p: Vec3): Vec2 => [dot3(p, toRight), dot3(p, toTop)];

/** A flat patch as the eye sees it. */
interface Pane {
  readonly corners: ReadonlySet<number>;
  readonly ring: readonly Vec2[];
  readonly normal: Vec3;
  /** How near the patch is to the eye at a point of the picture. */
  readonly depthAt: (q: Vec2) => number;
}

interface Line {
  readonly ends: readonly [number, number];
}

/** A roof as lines on paper, seen from the front right and above; what lies behind a panel is left out. */
export function lineDrawing(solid: Solid, title: string): string {
  const { vertices } = solid;
  const seen = vertices.map(see);
  const xs = seen.map(([x]) => x);
  const ys = seen.map(([, y]) => y);
  const [left, top] = [Math.min(...xs), Math.max(...ys)];
  const [width, height] = [Math.max(...xs) - left, top - Math.min(...ys)];
  const size = Math.max(width, height);
  const pane = (loop: readonly number[]): Pane => {
    const ring = loop.map((v) => seen[v] as Vec2);
    const normal = newellNormal(loop.map((v) => vertices[v] as Vec3));
    const origin = vertices[loop[0] as number] as Vec3;
    const slope = dot3(normal, toEye);
    return {
      corners: new Set(loop),
      ring,
      normal,
      depthAt: ([x, y]) => {
        const base: Vec3 = sub3(sub3(origin, scale3(toRight, x)), scale3(toTop, y));
        return dot3(normal, base) / slope;
      },
    };
  };
  const panes = solid.faces.flatMap((face) => facetsOf(face).map(pane));
  // A patch seen edge on hides nothing.
  const hiding = panes.filter(({ normal }) => Math.abs(dot3(normal, toEye)) > TOUCH);
  // Where a rolled face is made of two, nothing is to be seen.
  const edges = solid.edges.filter(
    (edge) => !isUnderSlope(solid, edge) && (edge.dihedral === null || !isSameAngle(edge.dihedral, Math.PI)),
  );
  const lines = [
    ...edges.flatMap((edge) => {
      const path = edgePath(edge);
      return path.slice(1).map((v, i): Line => ({ ends: [path[i] as number, v] }));
    }),
    ...solid.faces.flatMap((face) => turningLines(face, (loop) => dot3(pane(loop).normal, toEye))),
  ];
  const parts = lines.flatMap((line) => visibleParts(line, { vertices, seen, hiding, size }));
  const scale = SIZE / size;
  const show = ([x, y]: Vec2): string =>
    `${((x - left) * scale + BORDER).toFixed(1)} ${((top - y) * scale + BORDER).toFixed(1)}`;
  const path = parts.map(([a, b]) => `M${show(a)}L${show(b)}`).join('');
  const [w, h] = [width, height].map((length) => Math.ceil(length * scale + 2 * BORDER)) as [number, number];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" role="img">`,
    `<title>${title.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</title>`,
    `<rect width="${w}" height="${h}" rx="4" fill="#f6efdf"/>`,
    `<path d="${path}" fill="none" stroke="#2b2420" stroke-width="1.4" stroke-linecap="round"/>`,
    '</svg>\n',
  ].join('\n');
}

/** Whether an edge of a wall meets the inside of a slope whose outside is seen: the slope itself hides it. */
function isUnderSlope({ vertices, faces }: Solid, { role, ends, faces: met }: Edge): boolean {
  const [wall, slope] = met.map((f) => (faces[f]?.loop ?? []).map((v) => vertices[v] as Vec3));
  if (role !== 'abutment' || !wall || !slope) return false;
  const normal = newellNormal(slope);
  const away = wall.map((p) => dot3(normal, sub3(p, vertices[ends[0]] as Vec3)));
  return dot3(normal, toEye) > 0 && -Math.min(...away) > Math.max(...away);
}

/** Where a rolled face turns away from the eye it ends in a line: the rulings between strips that face it and strips that do not. */
function turningLines(face: Face, facing: (loop: readonly number[]) => number): readonly Line[] {
  const strips = facetsOf(face);
  const { rulings = [] } = face.roll ?? {};
  return rulings.slice(1, -1).flatMap(([high, low], i): Line[] => {
    const [before, after] = [facing(strips[i] as readonly number[]), facing(strips[i + 1] as readonly number[])];
    return before > 0 === after > 0 ? [] : [{ ends: [face.loop[high] as number, face.loop[low] as number] }];
  });
}

/** Lines cut where something begins or ends to hide them, the hidden parts left out. */
function visibleParts(
  { ends }: Line,
  {
    vertices,
    seen,
    hiding,
    size,
  }: {
    readonly vertices: readonly Vec3[];
    readonly seen: readonly Vec2[];
    readonly hiding: readonly Pane[];
    readonly size: number;
  },
): (readonly [Vec2, Vec2])[] {
  const [a, b] = ends.map((v) => seen[v] as Vec2) as [Vec2, Vec2];
  const [da, db] = ends.map((v) => dot3(vertices[v] as Vec3, toEye)) as [number, number];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length < TOUCH * size) return [];
  const across: Vec2 = [(-(b[1] - a[1]) / length) * BESIDE * size, ((b[0] - a[0]) / length) * BESIDE * size];
  const others = hiding.filter(({ corners }) => !ends.every((v) => corners.has(v)));
  const cuts = [0, 1, ...others.flatMap(({ ring }) => crossings([a, b], ring))].sort((p, q) => p - q);
  const pointAt = (t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
  const parts: [number, number][] = [];
  cuts.slice(1).forEach((end, i) => {
    const start = cuts[i] as number;
    const middle = (start + end) / 2;
    const point = pointAt(middle);
    const depth = da + (db - da) * middle;
    // Hidden where both its sides are: along the outline of what hides it a line still shows, and under a joint of two panels not.
    const isHidden = [1, -1].every((hand) => {
      const beside: Vec2 = [point[0] + across[0] * hand, point[1] + across[1] * hand];
      return others.some((pane) => pane.depthAt(beside) > depth + BEHIND * size && isInside(beside, pane.ring));
    });
    if (isHidden || end - start < TOUCH) return;
    const last = parts.at(-1);
    if (last && start - last[1] < TOUCH) last[1] = end;
    else parts.push([start, end]);
  });
  return parts.map(([from, to]) => [pointAt(from), pointAt(to)] as const);
}

/** Where a line crosses a ring, as shares of the line. */
function crossings([a, b]: readonly [Vec2, Vec2], ring: readonly Vec2[]): number[] {
  const along: Vec2 = [b[0] - a[0], b[1] - a[1]];
  const side = ([x, y]: Vec2): number => along[0] * (y - a[1]) - along[1] * (x - a[0]);
  const square = along[0] ** 2 + along[1] ** 2;
  return ring.flatMap((p, i) => {
    const q = at(ring, i + 1);
    const [sp, sq] = [side(p), side(q)];
    if (sp > 0 === sq > 0) return [];
    const u = sp / (sp - sq);
    const [x, y] = [p[0] + (q[0] - p[0]) * u - a[0], p[1] + (q[1] - p[1]) * u - a[1]];
    const t = (x * along[0] + y * along[1]) / square;
    return t > 0 && t < 1 ? [t] : [];
  });
}
