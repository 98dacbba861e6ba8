import { cross3, dot3, length3, scale3, type Vec2, type Vec3 } from '../../core/geometry/vector.ts';
import type { Body } from '../../core/project/project.ts';
import { facetsOf } from '../../core/solid/face-frame.ts';
import type { Solid } from '../../core/solid/solid.ts';

/** One flat patch of the picture; points in picture units (mm seen from the front right, y down). */
export interface Patch {
  readonly points: readonly Vec2[];
  readonly part: 'slope' | 'wall' | 'body';
  /** 0 in the shade to 1 in full light. */
  readonly light: number;
  readonly isSmooth: boolean;
}

export interface RoofPicture {
  readonly patches: readonly Patch[];
  /** Left, top, width, height. */
  readonly box: readonly [number, number, number, number];
}

const COS_30 = Math.sqrt(3) / 2;
/** Towards the eye: from the front, the right and above, all alike (isometric). */
const toEye: Vec3 = [1, -1, 1];
/** Light from the upper left, over the shoulder. */
const toLight: Vec3 = [-0.35, -0.75, 0.9];

/** Isometric: x runs down right, y (to the back) up right, z up. */
const see = (p: Vec3): Vec2 => [(p[0] + p[1]) * COS_30, (p[0] - p[1]) / 2 - p[2]];

interface Surface {
  readonly corners: readonly Vec3[];
  readonly part: Patch['part'];
  readonly normal: Vec3;
  /** A strip of a rolled panel: drawn without lines of its own. */
  readonly isSmooth: boolean;
}

/** A rolled panel is drawn in so many strips at most. */
const MOST_STRIPS = 24;

/** Newell's sum: twice the area, along the outward normal of a counter-clockwise loop. */
const loopNormal = (loop: readonly Vec3[]): Vec3 =>
  loop.reduce<Vec3>(
    (sum, p, i) => {
      const c = cross3(p, loop[(i + 1) % loop.length] as Vec3);
      return [sum[0] + c[0], sum[1] + c[1], sum[2] + c[2]];
    },
    [0, 0, 0],
  );

const surface = (corners: readonly Vec3[], part: Patch['part']): Surface => ({
  corners,
  part,
  normal: loopNormal(corners),
  isSmooth: false,
});

/** Walls of the body, whose foot is `foot` under the eave plane. */
const bodySurfaces = (body: Body, rest: number, foot: number): Surface[] => {
  const top = body.height - rest;
  const corner = (i: number): Vec2 => body.outline[i % body.outline.length] as Vec2;
  return [
    surface(
      body.outline.map(([x, y]): Vec3 => [x, y, top]),
      'body',
    ),
    ...body.outline.map((_, i) => {
      const [a, b] = [corner(i), corner(i + 1)];
      const wall = surface(
        [
          [a[0], a[1], foot],
          [b[0], b[1], foot],
          [b[0], b[1], top],
          [a[0], a[1], top],
        ],
        'body',
      );
      return { ...wall, isSmooth: body.isRound === true };
    }),
  ];
};

const depth = (s: Surface): number =>
  s.corners.reduce((sum, corner) => sum + dot3(corner, toEye), 0) / s.corners.length;

const lightOn = (normal: Vec3): number => {
  const cosine = dot3(normal, toLight) / (length3(normal) * length3(toLight));
  return Math.max(0, Math.min(1, 0.5 + cosine / 2));
};

/**
 * The roof on its body as flat patches, back to front. The solid's frame: z = 0 at the eave; `rest` is the height of
 * the eave over the table. Patches are sorted by their middle, which is enough for one convex roof over one body.
 */
export const drawRoof = (solid: Solid, body: Body | null, rest: number): RoofPicture => {
  const roof = solid.faces.flatMap((face) =>
    facetsOf(face, MOST_STRIPS).map(
      (ring): Surface => ({
        ...surface(
          ring.map((v) => solid.vertices[v] as Vec3),
          face.part === 'slope' ? 'slope' : 'wall',
        ),
        isSmooth: face.roll !== undefined,
      }),
    ),
  );
  // A tall tower is drawn shorter, so that its roof stays the larger part of a small picture.
  const size = Math.max(...solid.vertices.map((v) => Math.max(v[2], Math.hypot(v[0], v[1]))));
  const under = body === null ? [] : bodySurfaces(body, rest, -Math.min(rest, 0.9 * size));
  const isFront = (s: Surface): boolean => dot3(s.normal, toEye) > 0;
  const byDepth = (a: Surface, b: Surface): number => depth(a) - depth(b);
  // The roof may be open below: its far panels are seen from inside only where nothing stands before them.
  const inside = roof.filter((s) => !isFront(s)).map((s): Surface => ({ ...s, normal: scale3(s.normal, -1) }));
  const ordered = [
    ...inside.sort(byDepth),
    ...under.filter(isFront).sort(byDepth),
    ...roof.filter(isFront).sort(byDepth),
  ];
  const patches = ordered.map(
    (s): Patch => ({
      points: s.corners.map(see),
      part: s.part,
      light: lightOn(s.normal),
      isSmooth: s.isSmooth,
    }),
  );
  return { patches, box: boxAround(patches.flatMap((patch) => patch.points)) };
};

const boxAround = (points: readonly Vec2[]): RoofPicture['box'] => {
  if (points.length === 0) return [0, 0, 1, 1];
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const left = Math.min(...xs);
  const top = Math.min(...ys);
  return [left, top, Math.max(...xs) - left, Math.max(...ys) - top];
};
