import { type PiecePose, placePoint } from '../fold/pose.ts';
import { stripsOf } from '../fold/strips.ts';
import { move3 } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { add3, distance2, dot3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Flap, Hem, Piece } from '../net/net.ts';
import { faceFrame, faceNormal, frameMotion, normalAt, pointInFace } from '../solid/face-frame.ts';
import { edgesOfFaces, isFootOnFace } from '../solid/measure.ts';
import { bendPoint } from '../solid/roll.ts';
import type { Solid } from '../solid/solid.ts';
import { SNAP_MM } from '../tolerance.ts';
import type { Scene, SceneFace, SceneLine } from './hidden-lines.ts';
import { sinkUnder, UNDER_MM } from './solid-scene.ts';

/**
 * A piece as it is posed: its panels, flaps and hems as faces, their outlines and folds as lines. `sunk`: how far all of it lies
 * inside of what goes over it, mm. `out`: how far the piece is from its place on the roof, turned as it lies there: its flaps then
 * lie a little under the panel that they will be glued to, and bend with a round one; missing: it stands elsewhere.
 */
export function pieceScene(
  solid: Solid,
  piece: Piece,
  pose: PiecePose,
  { sunk = 0, out }: { readonly sunk?: number; readonly out?: Vec3 } = {},
): Scene {
  const faces: SceneFace[] = [];
  const lines: SceneLine[] = [];
  const straightOn = piece.folds.filter(({ angle }) => angle === 0).map(({ ends }) => ends);
  piece.panels.forEach((panel, i) => {
    const part = pose.panels[i];
    if (!part) return;
    const [, , normal] = columnsOf(part.motion.rotation);
    const into = scale3(normal, -sunk);
    const place = (p: Vec2): Vec3 => add3(placePoint(part, p), into);
    const strips = stripsOf(solid, panel);
    const first = faces.length;
    faces.push(...strips.map((ring) => ({ rings: [ring.map(place)] })));
    const edges = edgesOfFaces(solid)[panel.face] ?? [];
    sidesOf(panel.polygon).forEach(([a, b], k) => {
      if (straightOn.some((ends) => isSame(ends, [a, b]))) return;
      const under = out ? sinkUnder(solid, edges[k] as number) : asItIs;
      lines.push({ ends: [under(place(a)), under(place(b))] });
    });
    strips.slice(1).forEach((ring, k) => {
      // Both strips have the ruling between them.
      const before = strips[k] as readonly Vec2[];
      const [high, low] = ring.filter((p) => before.includes(p));
      if (high && low) lines.push({ ends: [place(high), place(low)], between: [first + k, first + k + 1] });
    });
  });
  const addStrip = (flap: Flap | Hem, part: PiecePose['flaps'][number] | undefined, under: (p: Vec3) => Vec3): void => {
    if (!part) return;
    const ring = flap.polygon.map((p, k) => {
      const point = placePoint(part, p);
      // The foot of a tooth is not straight: it lies under its host with the rest.
      return k <= flap.base && flap.base === 1 ? point : under(point);
    });
    faces.push({ rings: [ring] });
    const around = ring.map((p, k): SceneLine => ({ ends: [p, at(ring, k + 1)] }));
    lines.push(...around.slice(flap.base));
  };
  for (const [i, flap] of piece.flaps.entries()) addStrip(flap, pose.flaps[i], underHost(solid, flap, out));
  for (const [i, hem] of piece.hems.entries()) addStrip(hem, pose.hems[i], asItIs);
  return { faces, lines };
}

const asItIs = (p: Vec3): Vec3 => p;

/** Where a point of a glued flap comes to lie: on its host, round or flat, and a little under it. */
function underHost(solid: Solid, { to, edge }: Flap, out: Vec3 | undefined): (p: Vec3) => Vec3 {
  const face = solid.faces[to];
  if (!face || !out) return asItIs;
  const by = isFootOnFace(solid, edge) ? UNDER_MM : -UNDER_MM;
  const { normal, origin } = faceFrame(solid, to);
  if (!face.roll) return (p) => add3(p, scale3(normal, by * ROUND - dot3(normal, sub3(sub3(p, out), origin))));
  const { surface } = face.roll;
  const toSolid = frameMotion(faceFrame(solid, to));
  return (p) => {
    const onSurface = move3(toSolid, bendPoint(surface, pointInFace(solid, to, sub3(p, out)), 1));
    return add3(add3(onSurface, out), scale3(normalAt(solid.vertices, face, onSurface), by * ROUND));
  };
}

/** The flat strips of a round panel lie inside it by up to `ROLL_MM`; what lies under it must be clear of them too. */
const ROUND = 4;

const columnsOf = ([a, b, c]: readonly [Vec3, Vec3, Vec3]): readonly [Vec3, Vec3, Vec3] => [
  [a[0], b[0], c[0]],
  [a[1], b[1], c[1]],
  [a[2], b[2], c[2]],
];

const sidesOf = (ring: readonly Vec2[]): (readonly [Vec2, Vec2])[] => ring.map((p, i) => [p, at(ring, i + 1)]);

const isSame = ([a, b]: readonly [Vec2, Vec2], [p, q]: readonly [Vec2, Vec2]): boolean => {
  const near = (u: Vec2, v: Vec2): boolean => distance2(u, v) <= SNAP_MM;
  return (near(a, p) && near(b, q)) || (near(a, q) && near(b, p));
};

/** Which way the outer sides of a piece's panels look where it lies on the roof, the large ones most; not of unit length. */
export const outwardOf = (solid: Solid, piece: Piece): Vec3 =>
  piece.panels.reduce<Vec3>(
    (sum, { face }) => {
      const asked = solid.faces[face];
      return asked ? add3(sum, faceNormal(solid.vertices, asked)) : sum;
    },
    [0, 0, 0],
  );

/** How far an outward direction is turned to an eye. */
export const turnedTo = (outward: Vec3, toEye: Vec3): number => dot3(outward, toEye);
