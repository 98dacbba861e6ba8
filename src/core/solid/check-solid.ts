import { at } from '../geometry/polygon.ts';
import { distance3, dot3, sub3, type Vec3 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import { isPositive, isSameLength, NOISE_MM } from '../tolerance.ts';
import { faceNormal } from './build-solid.ts';
import type { Solid } from './solid.ts';

/**
 * What a solid must be before anything is unfolded from it: faces flat and facing out, every edge known and of its
 * true length, no face left hanging, the lowest eave at z = 0 (a fascia hangs below it). Returns no issue for every solid that a kind builds.
 */
export function checkSolid(solid: Solid): readonly Issue[] {
  const issues: Issue[] = [];
  const found = (code: string, message: string, numbers: Record<string, number>): void => {
    issues.push({ level: 'error', code, path: '', numbers, message });
  };

  solid.vertices.forEach((v, i) => {
    if (!v.every(Number.isFinite)) found('vertex-not-finite', 'A corner has no place.', { vertexCount: i });
  });
  solid.faces.forEach((face, f) => {
    const normal = faceNormal(solid.vertices, face);
    const origin = solid.vertices[face.loop[0] as number] as Vec3;
    const off = Math.max(...face.loop.map((v) => Math.abs(dot3(normal, sub3(solid.vertices[v] as Vec3, origin)))));
    if (!(off <= NOISE_MM)) found('face-not-flat', `The panel ${face.title} is not flat.`, { off });
    if (face.part === 'slope' && !isPositive(normal[2])) {
      found('face-inside-out', `The panel ${face.title} does not face up.`, { upward: normal[2] });
    }
    face.loop.forEach((start, i) => {
      const end = at(face.loop, i + 1);
      const runs = solid.edges.filter(
        ({ ends: [a, b], faces }) => ((a === start && b === end) || (a === end && b === start)) && faces.includes(f),
      );
      if (runs.length !== 1)
        found('edge-missing', `An edge of the panel ${face.title} is not listed once.`, { runsCount: runs.length });
    });
  });
  for (const [what, parts] of [
    ['panels', solid.faces],
    ['edges', solid.edges],
  ] as const) {
    const twice = parts.length - new Set(parts.map(({ id }) => id)).size;
    if (twice > 0) found('id-twice', `Two ${what} have one id.`, { twiceCount: twice });
  }
  const standing = solid.faces.filter((face) => face.part !== 'fascia');
  const lowest = Math.min(...standing.flatMap(({ loop }) => loop.map((v) => solid.vertices[v]?.[2] ?? Number.NaN)));
  if (!isSameLength(lowest, 0)) found('eave-off-zero', 'The lowest eave is not at level 0.', { lowest });
  for (const edge of solid.edges) {
    const [a, b] = edge.ends.map((v) => solid.vertices[v] as Vec3) as [Vec3, Vec3];
    const off = Math.abs(distance3(a, b) - edge.length);
    if (!(off <= NOISE_MM)) found('edge-length', `The length of the edge ${edge.id} is wrong.`, { off });
    if (!isPositive(edge.length)) found('edge-empty', `The edge ${edge.id} has no length.`, { length: edge.length });
    if ((edge.faces.length === 2) !== (edge.dihedral !== null)) {
      found('edge-dihedral', `The edge ${edge.id} has an angle without two panels, or two panels without one.`, {});
    }
    if (edge.role === 'eave' && !isSameLength(a[2], b[2])) {
      found('eave-not-level', `The eave ${edge.id} is not level.`, { off: a[2] - b[2] });
    }
    if (edge.role === 'abutment') {
      const [, slope] = edge.faces as readonly [number, number];
      const face = solid.faces[slope] as Solid['faces'][number];
      const normal = faceNormal(solid.vertices, face);
      const origin = solid.vertices[face.loop[0] as number] as Vec3;
      const away = Math.max(...[a, b].map((p) => Math.abs(dot3(normal, sub3(p, origin)))));
      if (!(away <= NOISE_MM))
        found('abutment-off', `The wall edge ${edge.id} does not lie on its slope.`, { off: away });
    }
  }
  return issues;
}
