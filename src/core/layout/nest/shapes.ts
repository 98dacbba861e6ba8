import { boxOf, ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { isSameAngle, isSameLength, NOISE_MM } from '../../tolerance.ts';
import { fewConvexParts, withoutIdlePoints } from './convex.ts';
import { NoFit } from './no-fit.ts';
import type { Ring } from './problem.ts';

/** An outline at one turn, the lower left corner of its box at the origin. Equal ones are one, whatever piece they come from. */
export interface Shape {
  readonly id: number;
  /** Empty where it is made of given parts. */
  readonly ring: Ring;
  readonly parts: readonly Ring[];
  readonly width: number;
  readonly height: number;
  readonly area: number;
  /** How much its overlaps count: the fourth root of its area, so that the large ones are freed first. */
  readonly heft: number;
}

/** A piece at one turn: point p of its outline lies at R(rotation) p + shift when its shape lies at the origin. */
export interface Pose {
  readonly shape: Shape;
  readonly rotation: number;
  readonly shift: Vec2;
}

/** All shapes of a problem, and where they may not lie beside each other, worked out when first asked for. */
export class Shapes {
  readonly list: Shape[] = [];
  private readonly noFits: Map<number, NoFit>[] = [];
  private readonly gaps: number[] = [];
  private readonly opposites: (Shape | null)[] = [];
  private readonly rasters = { left: MOST_RASTERS };

  /** The shape of a ring, and how far the ring lies off it. */
  add(ring: Ring): { readonly shape: Shape; readonly shift: Vec2 } {
    const clean = withoutIdlePoints(ring);
    const box = boxOf(clean);
    const moved = clean.map(([x, y]): Vec2 => [x - box.minX, y - box.minY]);
    return { shape: this.known(moved) ?? this.keep(moved, fewConvexParts(moved)), shift: [-box.minX, -box.minY] };
  }

  /** A shape of given convex parts, as of what lies round a sheet. */
  addParts(parts: readonly Ring[]): { readonly shape: Shape; readonly shift: Vec2 } {
    const box = boxOf(parts.flat());
    const moved = parts.map((ring) => ring.map(([x, y]): Vec2 => [x - box.minX, y - box.minY]));
    return { shape: this.keep([], moved), shift: [-box.minX, -box.minY] };
  }

  /** The poses of an outline at these turns; those that look alike count once. */
  poses(outline: Ring, turns: readonly number[]): readonly Pose[] {
    const poses: Pose[] = [];
    for (const rotation of turns) {
      const pose = this.pose(outline, rotation);
      if (!poses.some(({ shape }) => shape === pose.shape)) poses.push(pose);
    }
    return poses;
  }

  pose(outline: Ring, rotation: number): Pose {
    const [cos, sin] = [cleaned(Math.cos(rotation)), cleaned(Math.sin(rotation))];
    const { shape, shift } = this.add(outline.map(([x, y]): Vec2 => [cos * x - sin * y, sin * x + cos * y]));
    return { shape, rotation, shift };
  }

  /** Where b may not lie beside a at the origin, so far apart. */
  noFit(a: Shape, b: Shape, gap: number): NoFit {
    let g = this.gaps.indexOf(gap);
    if (g < 0) g = this.gaps.push(gap) - 1;
    const known = this.noFits[g] ?? new Map<number, NoFit>();
    this.noFits[g] = known;
    const found =
      known.get(keyOf(a, b)) ??
      known.get(keyOf(b, a))?.reflected(0, 0) ??
      this.turned(known, a, b) ??
      NoFit.between(a.parts, b.parts, gap, this.rasters);
    known.set(keyOf(a, b), found);
    return found;
  }

  /** The same from both shapes turned half round, where that is known. */
  private turned(known: Map<number, NoFit>, a: Shape, b: Shape): NoFit | undefined {
    const [c, d] = [this.opposite(a), this.opposite(b)];
    if (!c || !d) return undefined;
    const fit = known.get(keyOf(c, d)) ?? known.get(keyOf(d, c))?.reflected(0, 0);
    return fit?.reflected(a.width - b.width, a.height - b.height);
  }

  /** The shape that this one is when turned half round, where there is such a one. */
  private opposite(shape: Shape): Shape | null {
    const { id, ring, width, height } = shape;
    const known = this.opposites[id];
    if (known !== undefined) return known;
    const found = this.known(ring.map(([x, y]) => [width - x, height - y])) ?? null;
    this.opposites[id] = found;
    return found;
  }

  private known(ring: Ring): Shape | undefined {
    return this.list.find((shape) => isSameRing(shape.ring, ring));
  }

  private keep(ring: Ring, parts: readonly Ring[]): Shape {
    const box = boxOf(parts.flat());
    const area = parts.reduce((sum, part) => sum + ringArea(part), 0);
    const heft = Math.sqrt(Math.sqrt(area));
    const shape: Shape = { id: this.list.length, ring, parts, width: box.maxX, height: box.maxY, area, heft };
    this.list.push(shape);
    return shape;
  }
}

const MOST_RASTERS = 6000;
/** More shapes than any problem has: two ids make one key. */
const MOST_SHAPES = 2 ** 20;
const keyOf = (a: Shape, b: Shape): number => a.id * MOST_SHAPES + b.id;

function isSameRing(a: Ring, b: Ring): boolean {
  const n = a.length;
  if (b.length !== n) return false;
  const same = (p: Vec2, q: Vec2): boolean => isSameLength(p[0], q[0]) && isSameLength(p[1], q[1]);
  for (let shift = 0; shift < n; shift++) if (a.every((p, i) => same(p, b[(i + shift) % n]!))) return true;
  return false;
}

/** Quarter and half turns are meant exactly; cos(pi / 2) is not 0 in floating point. */
const cleaned = (value: number): number => (isSameAngle(value, Math.round(value)) ? Math.round(value) : value);

/** Edges this long, as a share of the longest, are worth laying along the sheet's sides. */
const LONG = 0.4;
const MOST_EDGES = 2;

/** Of all angles those worth trying: those that lay a long edge along a side of the sheet, the longest first, and quarter turns. */
export function telling(outline: Ring): readonly number[] {
  const edges = outline
    .map((p, i) => {
      const q = outline[(i + 1) % outline.length]!;
      const [x, y] = [q[0] - p[0], q[1] - p[1]];
      return { angle: Math.atan2(y, x), length: Math.sqrt(x * x + y * y) };
    })
    .sort((a, b) => b.length - a.length);
  const longest = edges[0]?.length ?? 0;
  const worth = edges.filter(({ length }) => length >= LONG * longest).slice(0, MOST_EDGES);
  const quarters = [0, 1, 2, 3].map((k) => (k * Math.PI) / 2);
  const angles: number[] = [];
  for (const start of [...worth.map(({ angle }) => -angle), 0]) {
    for (const quarter of quarters) {
      const angle = (start + quarter + 4 * Math.PI) % (2 * Math.PI);
      if (!angles.some((known) => Math.abs(Math.sin((known - angle) / 2)) <= NOISE_MM)) angles.push(angle);
    }
  }
  return angles;
}
