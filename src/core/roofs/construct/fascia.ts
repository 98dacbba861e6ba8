import { add3, cross2, distance3, scale3, sub2, sub3, unit3, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { turnAlong } from '../../solid/build-solid.ts';
import { normalAt } from '../../solid/face-frame.ts';
import type { Roll } from '../../solid/roll.ts';
import { type Edge, edgePath, type Face, type Solid } from '../../solid/solid.ts';
import { isPositive, NOISE_RAD } from '../../tolerance.ts';

/**
 * Hangs an upright strip, `drop` mm high, from every free eave of a solid, and from a high level edge that nothing of the roof
 * lies beyond, as at the back of a shed. The strips of neighbouring eaves meet at the corners. A strip belongs to the side of
 * its slope, so that in a piece per panel it stays a fold at the eave. Under a round eave it is rolled. Without an eave to hang
 * from the solid itself is returned.
 */
export function addFascia(solid: Solid, drop: number): Solid {
  const hung = solid.edges.flatMap((edge, e) => (carriesFascia(solid, edge) ? [e] : []));
  if (hung.length === 0) return solid;
  const vertices: Vec3[] = [...solid.vertices];
  const faces: Face[] = [...solid.faces];
  const edges: Edge[] = [...solid.edges];
  const below = new Map<number, number>();
  const lowered = (v: number): number => {
    const known = below.get(v);
    if (known !== undefined) return known;
    const index = vertices.push(add3(solid.vertices[v] as Vec3, [0, 0, -drop])) - 1;
    below.set(v, index);
    return index;
  };
  const taken = new Map<string, number>();
  const named = (name: string): string => {
    const count = (taken.get(name) ?? 0) + 1;
    taken.set(name, count);
    return count === 1 ? name : `${name}-${count}`;
  };
  const angleAt = (a: number, b: number, first: number, second: number): number => {
    const [from, to] = [vertices[a] as Vec3, vertices[b] as Vec3];
    const along = unit3(sub3(to, from));
    const middle = scale3(add3(from, to), 0.5);
    const [n1, n2] = [first, second].map((f) => normalAt(vertices, faces[f] as Face, middle)) as [Vec3, Vec3];
    return Math.PI - turnAlong(n1, n2, along);
  };
  const lengthOf = (a: number, b: number): number => distance3(vertices[a] as Vec3, vertices[b] as Vec3);

  const strips = hung.map((e) => {
    const edge = edges[e] as Edge;
    const [a, b] = edge.ends;
    const slope = edge.faces[0] as number;
    const { id, title, side, roll } = faces[slope] as Face;
    const path = edgePath(edge);
    const loop = [...path.map(lowered), ...path.toReversed()];
    const bent =
      roll && edge.via
        ? {
            roll: rollUnder(
              path.map((v) => vertices[v] as Vec3),
              drop,
              roll.deviation,
            ),
          }
        : {};
    const face =
      faces.push({ id: named(`${id}-fascia`), title: `${title} fascia`, part: 'fascia', side, loop, ...bent }) - 1;
    const half = Math.floor((path.length - 1) / 2);
    const dihedral = angleAt(path[half] as number, path[half + 1] as number, slope, face);
    edges[e] = { ...edge, role: 'eave', faces: [slope, face], dihedral };
    return { face, a, b, length: edge.length, path };
  });
  for (const { face, a, b, length, path } of strips) {
    const { id } = faces[face] as Face;
    const [from, to] = [lowered(a), lowered(b)];
    edges.push({
      id: `foot-${id}`,
      ends: [from, to],
      ...(path.length > 2 ? { via: path.slice(1, -1).map(lowered) } : {}),
      faces: [face],
      role: 'foot',
      length,
      dihedral: null,
    });
    // Where this strip ends the next one begins; at a gable end neither has a neighbour.
    const next = strips.filter((strip) => strip.a === b);
    const before = strips.filter((strip) => strip.b === a);
    const follows = next.length === 1 && strips.filter((strip) => strip.b === b).length === 1;
    const isFollowed = before.length === 1 && strips.filter((strip) => strip.a === a).length === 1;
    const other = next[0]?.face;
    if (follows && other !== undefined) {
      const dihedral = angleAt(to, b, face, other);
      // Where a round eave is made of two, the paper goes straight on.
      const role = dihedral < Math.PI + NOISE_RAD ? 'hip' : 'valley';
      edges.push({
        id: `${role}-${id}-${faces[other]?.id}`,
        ends: [to, b],
        faces: [face, other],
        role,
        length: lengthOf(to, b),
        dihedral,
      });
    } else {
      edges.push(openEnd(`verge-${id}-end`, [to, b], face, lengthOf(to, b)));
    }
    if (!isFollowed) edges.push(openEnd(`verge-${id}-start`, [a, from], face, lengthOf(a, from)));
  }
  return { ...solid, vertices, faces, edges };
}

/** A strip rolled about the upright cylinder over a level arc of points, mm. */
export function rollUnder(arc: readonly Vec3[], drop: number, deviation: number): Roll {
  const [first, middle, last] = [0, Math.floor(arc.length / 2), arc.length - 1].map((i) => arc[i] as Vec3) as [
    Vec3,
    Vec3,
    Vec3,
  ];
  const turn =
    2 * cross2(sub2([middle[0], middle[1]], [first[0], first[1]]), sub2([last[0], last[1]], [first[0], first[1]]));
  const radius = (distance3(first, middle) * distance3(middle, last) * distance3(last, first)) / turn;
  const steps = arc.slice(1).map((p, i) => 2 * radius * Math.asin(distance3(arc[i] as Vec3, p) / (2 * radius)));
  const length = steps.reduce((sum, step) => sum + step, 0);
  const places = [0, ...steps.map((_, i) => steps.slice(0, i + 1).reduce((sum, step) => sum + step, 0))];
  const across = places.map((place) => place - length / 2);
  const count = arc.length - 1;
  return {
    surface: { form: 'cylinder', radius, rulings: 'y' },
    flat: [...across.map((x): Vec2 => [x, 0]), ...across.toReversed().map((x): Vec2 => [x, drop])],
    rulings: across.map((_, i) => [2 * count + 1 - i, i]),
    corners: [0, count, count + 1, 2 * count + 1],
    deviation,
  };
}

const openEnd = (id: string, ends: readonly [number, number], face: number, length: number): Edge => ({
  id,
  ends,
  faces: [face],
  role: 'verge',
  length,
  dihedral: null,
});

/** Whether a fascia hangs from an edge. */
export function carriesFascia(solid: Solid, edge: Edge): boolean {
  const { role, faces } = edge;
  const [face] = faces;
  if (faces.length !== 1 || face === undefined || solid.faces[face]?.part !== 'slope') return false;
  return role === 'eave' || (role === 'rim' && isOutermost(solid, edge));
}

/** Nothing of the roof lies straight out beyond the middle of the edge, as it would across an open top. */
function isOutermost({ vertices, edges }: Solid, rim: Edge): boolean {
  const plan = (v: number): Vec2 => [vertices[v]?.[0] ?? 0, vertices[v]?.[1] ?? 0];
  const [a, b] = rim.ends.map(plan) as [Vec2, Vec2];
  const along = sub2(b, a);
  const out: Vec2 = [along[1], -along[0]];
  const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return !edges.some(({ ends }) => {
    const [p, q] = ends.map((v) => sub2(plan(v), middle)) as [Vec2, Vec2];
    const [before, after] = [cross2(out, p), cross2(out, q)];
    if (before > 0 === after > 0) return false;
    const [x, y] = [
      p[0] + ((q[0] - p[0]) * before) / (before - after),
      p[1] + ((q[1] - p[1]) * before) / (before - after),
    ];
    return isPositive((x * out[0] + y * out[1]) / Math.hypot(...out));
  });
}
