import { ringsOf } from '../footprint/offset.ts';
import { at } from '../geometry/polygon.ts';
import { add3, dot3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import type { Body } from '../project/project.ts';
import { facetsOf, normalAt } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import { edgePath, type Face, type Solid } from '../solid/solid.ts';
import { isSameAngle } from '../tolerance.ts';
import type { Scene, SceneFace, SceneLine } from './hidden-lines.ts';

/** What lies on another thing in one plane is drawn so far behind it, mm: far under what can be seen, far over `SNAP_MM`. */
export const UNDER_MM = 0.02;

export const emptyScene: Scene = { faces: [], lines: [] };

export function joinScenes(scenes: readonly Scene[]): Scene {
  const faces: SceneFace[] = [];
  const lines: SceneLine[] = [];
  for (const scene of scenes) {
    const first = faces.length;
    faces.push(...scene.faces);
    for (const line of scene.lines)
      lines.push(
        line.between ? { ...line, between: [line.between[0] + first, line.between[1] + first] as const } : line,
      );
  }
  return { faces, lines };
}

/**
 * A roof as faces and lines, in its own frame. Rolled faces are the strips between their rulings and show where they turn away
 * from the eye; edges where the roof goes straight on are not seen.
 */
export function solidScene(solid: Solid): Scene {
  const { vertices, faces, edges } = solid;
  const place = (v: number): Vec3 => vertices[v] as Vec3;
  const strips = faces.map((face) => facetsOf(face));
  const firsts: number[] = [];
  let count = 0;
  for (const own of strips) {
    firsts.push(count);
    count += own.length;
  }
  const stripBeside = (face: number, a: number, b: number): number =>
    (firsts[face] as number) +
    Math.max(0, strips[face]?.findIndex((ring) => ring.includes(a) && ring.includes(b)) ?? 0);
  const drawn = edges.flatMap((edge, e): SceneLine[] => {
    const path = edgePath(edge);
    const sunk = sinkUnder(solid, e);
    return path.slice(1).map((v, i): SceneLine => {
      const from = path[i] as number;
      const ends = [sunk(place(from)), sunk(place(v))] as const;
      const [one, other] = edge.faces;
      const goesOn = edge.dihedral !== null && isSameAngle(edge.dihedral, Math.PI);
      return goesOn && one !== undefined && other !== undefined
        ? { ends, between: [stripBeside(one, from, v), stripBeside(other, from, v)] }
        : { ends };
    });
  });
  const turning = faces.flatMap((face, f) => turningLines(face, firsts[f] as number, place));
  return {
    faces: strips.flat().map((ring) => ({ rings: [ring.map(place)] })),
    lines: [...drawn, ...turning],
  };
}

/**
 * The upper edge of a wall that ends under a slope lies in the slope's plane; it is drawn a little under it. Other edges stay
 * where they are.
 */
export function sinkUnder(solid: Solid, edge: number): (p: Vec3) => Vec3 {
  const { vertices, faces, edges } = solid;
  const asked = edges[edge];
  if (asked?.role !== 'abutment' || isFootOnFace(solid, edge)) return (p) => p;
  const { faces: sides, ends } = asked;
  const [wall, slope] = sides.map((f) => faces[f] as Face) as [Face, Face];
  const from = vertices[ends[0]] as Vec3;
  const normal = normalAt(vertices, slope, from);
  // Away from the side of the slope that the wall is on it would lie in the open.
  const away = wall.loop.map((v) => dot3(normal, sub3(vertices[v] as Vec3, from)));
  const side = Math.max(...away) > -Math.min(...away) ? 1 : -1;
  return (p) => add3(p, scale3(normal, side * UNDER_MM));
}

/** The rulings between the strips of a rolled face, whose strips count on from `first`. */
const turningLines = (face: Face, first: number, place: (v: number) => Vec3): readonly SceneLine[] =>
  (face.roll?.rulings ?? []).slice(1, -1).map(
    ([high, low], i): SceneLine => ({
      ends: [place(face.loop[high] as number), place(face.loop[low] as number)],
      between: [first + i, first + i + 1],
    }),
  );

/** A body's walls and its top, from `foot` to `top`. A round wall shows only where it turns away from the eye. */
export function bodyScene({ outline, courts, isRound }: Body, foot: number, top: number): Scene {
  if (top <= foot) return emptyScene;
  const rings = ringsOf({ corners: outline, courts });
  const level = (z: number): Vec3[][] => rings.map((ring) => ring.map(([x, y]): Vec3 => [x, y, z]));
  const [low, high] = [level(foot), level(top)];
  const faces: SceneFace[] = [{ rings: high }];
  const lines: SceneLine[] = [];
  low.forEach((ring, r) => {
    const above = high[r] as Vec3[];
    const first = faces.length;
    ring.forEach((p, i) => {
      faces.push({ rings: [[p, at(ring, i + 1), at(above, i + 1), at(above, i)]] });
      const upright = [p, at(above, i)] as const;
      const before = first + ((i + ring.length - 1) % ring.length);
      lines.push(
        isRound ? { ends: upright, between: [before, first + i] } : { ends: upright },
        { ends: [p, at(ring, i + 1)] },
        { ends: [at(above, i), at(above, i + 1)] },
      );
    });
  });
  return { faces, lines };
}
