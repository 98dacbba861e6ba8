import { cross3, distance3, dot3, sub3, unit3, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import type { Issue } from '../../issue.ts';
import type { Body, ShapeValues } from '../../project/project.ts';
import { measureSolid } from '../../solid/measure.ts';
import type { Solid } from '../../solid/solid.ts';
import { findKind } from '../catalogue.ts';

export interface Built {
  readonly solid: Solid;
  readonly issues: readonly Issue[];
}

export const build = (kind: string, shape: ShapeValues, body: Body | null = null): Built => {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built));
  return { solid: built.value, issues: built.issues };
};
export const codesOf = (kind: string, shape: ShapeValues): string[] =>
  findKind(kind)
    ?.build(shape, null)
    .issues.map(({ code, path }) => `${code} ${path}`) ?? [];

export const numberOf = ({ issues }: Built, code: string, key: string): number =>
  issues.find((issue) => issue.code === code)?.numbers?.[key] ?? Number.NaN;

/** Panels up the south side, from the eave to the top. */
export const southPitches = (solid: Solid): number[] => {
  const { faces } = measureSolid(solid);
  return solid.faces.flatMap(({ side }, f) => (side === 'south' ? [faces[f]?.pitch ?? 0] : []));
};

/** Corners of the south gore's middle line as [reach, level]. */
export const southProfile = (solid: Solid): Vec2[] => {
  const rows = solid.faces
    .filter(({ side }) => side === 'south')
    .map(({ loop }) => loop.map((v) => solid.vertices[v] as Vec3));
  const middle = (points: readonly Vec3[], level: number): Vec2 => [
    -(points.find((p) => p[2] === level)?.[1] ?? Number.NaN),
    level,
  ];
  const levels = [...new Set(rows.flat().map((p) => p[2]))].sort((a, b) => a - b);
  return levels.map((level) => middle(rows.flat(), level));
};

/** Points of a panel with three or four corners, edges included. */
export const pointsOn = (corners: readonly Vec3[], steps: number): Vec3[] => {
  const [a, b, c, d = c] = corners as [Vec3, Vec3, Vec3, Vec3?];
  const mix = (p: Vec3, q: Vec3, t: number): Vec3 => [
    p[0] + (q[0] - p[0]) * t,
    p[1] + (q[1] - p[1]) * t,
    p[2] + (q[2] - p[2]) * t,
  ];
  return Array.from({ length: (steps + 1) ** 2 }, (_, i) =>
    mix(
      mix(a, b, (i % (steps + 1)) / steps),
      mix(d, c, (i % (steps + 1)) / steps),
      Math.floor(i / (steps + 1)) / steps,
    ),
  );
};

/** Distance from a point to a flat convex panel. */
export const distanceToPanel = (point: Vec3, corners: readonly Vec3[]): number => {
  const [a, b, c] = corners as [Vec3, Vec3, Vec3];
  const normal = unit3(cross3(sub3(b, a), sub3(c, a)));
  const isOver = corners.every((p, i) => {
    const q = corners[(i + 1) % corners.length] as Vec3;
    return dot3(cross3(sub3(q, p), sub3(point, p)), normal) >= 0;
  });
  if (isOver) return Math.abs(dot3(normal, sub3(point, a)));
  return Math.min(
    ...corners.map((p, i) => {
      const along = sub3(corners[(i + 1) % corners.length] as Vec3, p);
      const t = Math.min(1, Math.max(0, dot3(sub3(point, p), along) / dot3(along, along)));
      return distance3(point, [p[0] + along[0] * t, p[1] + along[1] * t, p[2] + along[2] * t]);
    }),
  );
};

/** Points all along a true profile, from the eave to the peak. */
export type Curve = readonly Vec2[];

/** How far panels lie off a swept profile and the swept profile off the panels, both by trying points everywhere. */
export const sampledDeviation = (
  solid: Solid,
  curve: Curve,
  sides: number,
): { readonly out: number; readonly back: number } => {
  const panels = solid.faces.map(({ loop }) => loop.map((v) => solid.vertices[v] as Vec3));
  const south = panels.filter((_, f) => solid.faces[f]?.side === 'south');
  const nearest = ([x, y, z]: Vec3): number =>
    Math.min(...curve.map(([reach, level]) => Math.hypot(Math.hypot(x, y) - reach, z - level)));
  const out = Math.max(...south.flatMap((corners) => pointsOn(corners, 8).map(nearest)));
  const near = panels.filter((_, f) =>
    ['south', 'south-east', 'south-west'].some((id) => solid.faces[f]?.side.startsWith(id)),
  );
  const back = Math.max(
    ...curve
      .filter((_, i) => i % 40 === 0)
      .flatMap(([reach, level]) =>
        [0, 0.25, 0.5, 0.75, 1].map((share) => {
          const angle = -Math.PI / 2 + (share * Math.PI) / sides;
          const point: Vec3 = [reach * Math.cos(angle), reach * Math.sin(angle), level];
          return Math.min(...near.map((corners) => distanceToPanel(point, corners)));
        }),
      ),
  );
  return { out, back };
};

/** Points of a circle from one angle to another. */
export const circle = ([x, y]: Vec2, radius: number, from: number, to: number, count = 2000): Curve =>
  Array.from({ length: count + 1 }, (_, i): Vec2 => {
    const angle = from + ((to - from) * i) / count;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });

export const capCurve = (run: number, rise: number): Curve => {
  if (rise <= run) {
    const radius = (run ** 2 + rise ** 2) / (2 * rise);
    return circle([0, rise - radius], radius, Math.asin((radius - rise) / radius), Math.PI / 2);
  }
  const radius = (run ** 2 + rise ** 2) / (2 * run);
  return circle([run - radius, 0], radius, 0, Math.asin(rise / radius));
};
