import earcut from 'earcut';
import { type Box, boxOf, ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { isAtMost, NOISE_MM2 } from '../../tolerance.ts';
import { joinConvex, withoutIdlePoints } from './convex.ts';
import { outerRing } from './outer-ring.ts';
import type { NestPiece, NestProblem, Ring } from './problem.ts';
import { type Pose, type Shape, Shapes, telling } from './shapes.ts';

/** Something that stays where it is: a locked piece, or what lies round a sheet that is no rectangle. */
export interface Fixed {
  readonly shape: Shape;
  readonly x: number;
  readonly y: number;
  /** What a piece must keep away from it, mm. */
  readonly gap: number;
}

export interface Kind {
  readonly box: Box;
  readonly area: number;
  readonly count: number;
  readonly gap: number;
  /** On every sheet of the kind. */
  readonly round: readonly Fixed[];
  /** Locked on sheet 0, 1, 2 … */
  readonly taken: readonly (readonly Fixed[])[];
  /** 0: the first choice of some piece; 1: at best the second of any; … */
  readonly rank: number;
}

export interface JobPiece {
  readonly area: number;
  /** Kinds that it fits on, in order of preference. */
  readonly kinds: readonly number[];
  /** By kind; none where it may not go or is too large. */
  readonly poses: readonly (readonly Pose[])[];
}

/** A problem made ready for the search. */
export interface Job {
  readonly shapes: Shapes;
  readonly pieces: readonly JobPiece[];
  readonly kinds: readonly Kind[];
}

/** Every pair of shapes is worked out: where pieces may lie at every angle, fewer are tried the more pieces there are. */
const MOST_SHAPES = 120;
const LEAST_TURNS = 4;

export interface TurnedPiece extends Omit<NestPiece, 'choices'> {
  readonly choices: readonly { readonly kind: number; readonly turns: readonly number[] }[];
}

/** A problem whose pieces have the turns told that are tried. */
export interface TurnedProblem extends Omit<NestProblem, 'pieces'> {
  readonly pieces: readonly TurnedPiece[];
}

/** The same problem with the turns told that are tried where every angle will do. */
export function withTurns(problem: NestProblem): TurnedProblem {
  const distinct = new Set(problem.pieces.map(({ outline }) => outline.join())).size;
  const most = Math.max(LEAST_TURNS, Math.floor(MOST_SHAPES / Math.max(1, distinct)));
  const told = ({ outline, choices, ...piece }: NestPiece): TurnedPiece => ({
    ...piece,
    outline,
    choices: choices.map(({ kind, turns }) => ({
      kind,
      turns: turns === 'any' ? telling(outerRing(outline)).slice(0, most) : turns,
    })),
  });
  return { ...problem, pieces: problem.pieces.map(told) };
}

export function readyJob(asked: NestProblem): Job {
  const problem = withTurns(asked);
  const shapes = new Shapes();
  const kinds = problem.sheets.map(({ parts, count, gap, taken }, k): Kind => {
    const rings = parts.map(withoutIdlePoints);
    const ranks = problem.pieces.map(({ choices }) => choices.findIndex(({ kind }) => kind === k));
    return {
      box: boxOf(rings.flat()),
      area: areaOf(rings),
      count: count ?? Number.POSITIVE_INFINITY,
      gap,
      round: outside(rings).map((around) => fixed(shapes.addParts(around), 0)),
      taken: taken.map((rings) => rings.map((one) => fixed(shapes.add(one), gap))),
      rank: Math.min(...ranks.filter((rank) => rank >= 0), problem.sheets.length),
    };
  });
  const pieces = problem.pieces.map(({ outline, choices }): JobPiece => {
    const outer = outerRing(outline);
    const poses = kinds.map(({ box }, k): readonly Pose[] => {
      const choice = choices.find(({ kind }) => kind === k);
      return choice ? shapes.poses(outer, choice.turns).filter(({ shape }) => fitsBox(shape, box)) : [];
    });
    const fitting = choices.map(({ kind }) => kind).filter((kind) => (poses[kind]?.length ?? 0) > 0);
    return { area: Math.abs(ringArea(outline)), kinds: [...new Set(fitting)], poses };
  });
  return { shapes, pieces, kinds };
}

const fixed = ({ shape, shift }: { readonly shape: Shape; readonly shift: Vec2 }, gap: number): Fixed => ({
  shape,
  x: 0 - shift[0],
  y: 0 - shift[1],
  gap,
});

export const fitsBox = ({ width, height }: Shape, { minX, minY, maxX, maxY }: Box): boolean =>
  isAtMost(width, maxX - minX) && isAtMost(height, maxY - minY);

const areaOf = (rings: readonly Ring[]): number => rings.reduce((sum, ring) => sum + Math.abs(ringArea(ring)), 0);

/** What lies round rings, as convex parts: nothing round a rectangle that stands upright, since pieces keep to its box. */
function outside(rings: readonly Ring[]): readonly (readonly Ring[])[] {
  const { minX, minY, maxX, maxY } = boxOf(rings.flat());
  if (Math.abs((maxX - minX) * (maxY - minY) - areaOf(rings)) <= NOISE_MM2) return [];
  const far = maxX - minX + maxY - minY;
  const frame: Ring = [
    [minX - far, minY - far],
    [maxX + far, minY - far],
    [maxX + far, maxY + far],
    [minX - far, maxY + far],
  ];
  const points = [frame, ...rings].flat();
  const holes = rings.map((_, i) => frame.length + rings.slice(0, i).flat().length);
  const corners = earcut(points.flat(), holes);
  const triangles: Vec2[][] = [];
  for (let i = 0; i < corners.length; i += 3) {
    const triangle = corners.slice(i, i + 3).map((c) => points[c]!);
    const area = ringArea(triangle);
    if (area !== 0) triangles.push(area > 0 ? triangle : triangle.reverse());
  }
  return [joinConvex(triangles)];
}
