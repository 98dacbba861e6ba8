import { cross3, distance3, dot3, scale3, sub3, unit3, type Vec3 } from '../geometry/vector.ts';
import { NOISE_RAD } from '../tolerance.ts';
import { determinant, isSamePlane, type MovingPlane, meetAfter } from './moving-plane.ts';

/** 1 where the surface turns out over an edge (ridge, hip), -1 where it turns in (valley); 0: either would do. */
export type Turn = -1 | 0 | 1;

/** What becomes of a corner: new corners, each of some of the planes, and for each plane those it touches. */
export interface SplitCorner {
  /** Positions in the ring of planes, counter-clockwise; the stop of a gap as itself. */
  readonly cells: readonly (readonly (number | MovingPlane)[])[];
  /** For each position the cells along its face, in the direction of the face's loop. */
  readonly chains: readonly (readonly number[])[];
}

/** Three positions of the ring, and the point of their planes; with a stop a point at each of its three edges. */
interface Triangle {
  readonly positions: readonly [number, number, number];
  /** At the edge of the first two, the last two, the first and last. */
  readonly points: readonly [Vec3, Vec3, Vec3];
  readonly stop?: MovingPlane;
}

/** One way to divide the planes from i to j: its triangle at the chord, those below, and how the edge of i and j may turn. */
interface Option {
  readonly triangle: Triangle;
  readonly below: readonly Option[];
  readonly allowed: readonly Turn[];
  /** How the edges of the first two planes and of the last two turn. */
  readonly turns: readonly [Turn, Turn];
  /** How long all new edges below its chord are together. */
  readonly length: number;
}

/** What is below one side of a triangle: how its edge turns, and how long all new edges there are together. */
interface Side {
  readonly turn: Turn;
  /** Between two faces in one plane: the way that the line between them comes to the triangle. */
  readonly along: Vec3 | null;
  readonly below: readonly Option[];
  readonly length: number;
}

/**
 * Divides a corner in which more than three planes no longer meet, once they have moved one way. The planes go round it
 * counter-clockwise seen from outside; `turns[i]` is that of the edge between plane i and the next. The new corners and the
 * short edges between them form a tree, dual to a triangulation of the ring: a triangle is the point of three planes, a chord
 * the new edge of two. Three planes in a corner turn all alike where their normals go round the same way as they do, and not all
 * alike where they go round the other way; that decides which trees are surfaces. Of them the one with the shortest edges, by
 * dynamic programming over chords.
 * Where two slopes of unlike pitch stand on one eave line they part at the eave, with nothing of the roof between them: there an
 * upright stop across the eave ends the one that stands out (`mayStop`: a position that is no face). Null where no tree is a surface.
 */
export function splitCorner(
  planes: readonly MovingPlane[],
  turns: readonly Turn[],
  way: 1 | -1,
  mayStop: (position: number) => boolean,
): SplitCorner | null {
  const count = planes.length;
  const plane = (i: number): MovingPlane => planes[i] as MovingPlane;
  const known = new Map<number, readonly Option[]>();

  const optionsOf = (i: number, j: number): readonly Option[] => {
    const found = known.get(i * count + j);
    if (found) return found;
    const options: Option[] = [];
    for (let k = i + 1; k < j; k++) {
      for (const [triangle, fits] of trianglesOver(i, k, j)) options.push(...optionsWith(triangle, fits));
    }
    const kept = shortest(options, ({ allowed }) => allowed.join());
    known.set(i * count + j, kept);
    return kept;
  };

  const trianglesOver = (i: number, k: number, j: number): readonly (readonly [Triangle, Fits])[] => {
    const [a, b, c] = [plane(i), plane(k), plane(j)];
    const positions = [i, k, j] as const;
    const point = pointOf(a, b, c, way);
    if (point) {
      const sense = senseOf(a, b, c);
      return [[{ positions, points: [point, point, point] }, (edges) => fitsSense(sense, edges)]];
    }
    return positions.some(mayStop) ? stopped(positions, [a, b, c], way) : [];
  };

  const optionsWith = (triangle: Triangle, fits: Fits): readonly Option[] => {
    const [i, k, j] = triangle.positions;
    const options: Option[] = [];
    for (const one of sidesOf(i, k, triangle.points[0], plane(j))) {
      for (const other of sidesOf(k, j, triangle.points[1], plane(i))) {
        const allowed = ([1, -1] as const).filter((turn) => fits([one.turn, other.turn, turn]));
        if (allowed.length === 0) continue;
        if (!comesClear(one.along, plane(j), other.turn) || !comesClear(other.along, plane(i), one.turn)) continue;
        const below = [...one.below, ...other.below];
        options.push({
          triangle,
          below,
          allowed,
          turns: [one.turn, other.turn],
          length: one.length + other.length,
        });
      }
    }
    return options;
  };

  /** The ways in which the edge of two planes may turn under a triangle with this point and third plane, each once. */
  const sidesOf = (i: number, j: number, point: Vec3, third: MovingPlane): readonly Side[] => {
    if (j === i + 1) return [{ turn: turns[i] ?? 0, along: null, below: [], length: 0 }];
    const isOnePlane = isSamePlane(plane(i), plane(j));
    const sides: Side[] = [];
    for (const option of optionsOf(i, j)) {
      // Between two faces in one plane a third would be a spike without width.
      if (isSamePlane(plane(option.triangle.positions[1]), third)) continue;
      const along = sub3(point, option.triangle.points[2]);
      const turn = turnOf(plane(i), plane(j), along);
      if (turn !== 0 && !option.allowed.includes(turn)) continue;
      if (isOnePlane && !leavesClear(along, plane(option.triangle.positions[1]), option.turns)) continue;
      const length = option.length + Math.hypot(...along);
      sides.push({ turn, along: isOnePlane ? along : null, below: [option], length });
    }
    return shortest(sides, ({ turn }) => String(turn));
  };

  const last = turns[count - 1] ?? 0;
  const roots = optionsOf(0, count - 1)
    .filter(({ allowed }) => last === 0 || allowed.includes(last))
    .sort((a, b) => a.length - b.length);
  const trees = roots.map(trianglesOf);
  const tree = trees.find((triangles) => triangles.every(({ stop }) => !stop)) ?? trees[0];
  return tree ? gathered(tree, count) : null;
}

/**
 * Whether the line between two faces in one plane leaves, in that plane, the face between them: below its plane where they turn
 * out over it, above where they turn in.
 */
function leavesClear(along: Vec3, between: MovingPlane, turns: readonly Turn[]): boolean {
  const rise = dot3(between.normal, along);
  return Math.abs(rise) <= NOISE_RAD || turns.every((turn) => turn === 0 || turn === (rise < 0 ? 1 : -1));
}

/** The same where such a line comes to the face at its other end. */
const comesClear = (along: Vec3 | null, ahead: MovingPlane, turn: Turn): boolean =>
  along === null || leavesClear(scale3(along, -1), ahead, [turn]);

/** Of all that have a key the shortest, the first of those that are alike: what runs over itself is longer than what does not. */
function shortest<T extends { readonly length: number }>(all: readonly T[], keyOf: (one: T) => string): readonly T[] {
  const kept = new Map<string, T>();
  for (const one of all) {
    const key = keyOf(one);
    if (one.length < (kept.get(key)?.length ?? Number.POSITIVE_INFINITY) - NOISE_RAD) kept.set(key, one);
  }
  return [...kept.values()];
}

const trianglesOf = ({ triangle, below }: Option): readonly Triangle[] => [triangle, ...below.flatMap(trianglesOf)];

/** Whether the edges of a triangle may turn so: of the first two planes, the last two, the first and last. */
type Fits = (edges: readonly [Turn, Turn, Turn]) => boolean;

/** Three planes with one direction in common, ended by a plane across it, facing either way. */
function stopped(
  positions: readonly [number, number, number],
  [a, b, c]: readonly [MovingPlane, MovingPlane, MovingPlane],
  way: 1 | -1,
): readonly (readonly [Triangle, Fits])[] {
  const across = cross3(a.normal, b.normal);
  const size = Math.hypot(...across);
  if (size <= NOISE_RAD || isSamePlane(b, c) || isSamePlane(c, a)) return [];
  return ([1, -1] as const).flatMap((facing): readonly (readonly [Triangle, Fits])[] => {
    const stop: MovingPlane = { normal: scale3(across, facing / size), speed: 0 };
    const [ab, bc, ca] = [pointOf(a, b, stop, way), pointOf(b, c, stop, way), pointOf(c, a, stop, way)];
    if (!ab || !bc || !ca) return [];
    // Each face comes to the stop after its next neighbour and leaves it before the one before.
    const [ta, tb, tc] = [turnOf(a, stop, sub3(ca, ab)), turnOf(b, stop, sub3(ab, bc)), turnOf(c, stop, sub3(bc, ca))];
    const senses = [senseOf(a, b, stop), senseOf(b, c, stop), senseOf(c, a, stop)] as const;
    const fits: Fits = ([ofAb, ofBc, ofCa]) =>
      fitsSense(senses[0], [ofAb, tb, ta]) &&
      fitsSense(senses[1], [ofBc, tc, tb]) &&
      fitsSense(senses[2], [ofCa, ta, tc]);
    return [[{ positions, points: [ab, bc, ca], stop }, fits]];
  });
}

/** Three planes meet in one point; of two that are one plane, the point lies where their edge went down the fall line. */
function pointOf(a: MovingPlane, b: MovingPlane, c: MovingPlane, way: 1 | -1): Vec3 | null {
  const twin = isSamePlane(a, b) || isSamePlane(c, a) ? a : isSamePlane(b, c) ? b : null;
  if (twin && Math.hypot(twin.normal[0], twin.normal[1]) <= NOISE_RAD) return null;
  const fall: MovingPlane | null = twin && { normal: unit3([-twin.normal[1], twin.normal[0], 0]), speed: 0 };
  const other = isSamePlane(b, c) ? a : isSamePlane(a, b) ? c : b;
  const three = fall ? [other, twin as MovingPlane, fall] : [a, b, c];
  const [p, q, r] = three as [MovingPlane, MovingPlane, MovingPlane];
  return meetAfter([p.normal, q.normal, r.normal], [way * p.speed, way * q.speed, way * r.speed]);
}

/** Whether the normals go round as the planes do: 1, or the other way: -1; 0 where two of the planes are one. */
function senseOf(a: MovingPlane, b: MovingPlane, c: MovingPlane): Turn {
  if (isSamePlane(a, b) || isSamePlane(b, c) || isSamePlane(c, a)) return 0;
  return determinant(a.normal, b.normal, c.normal) > 0 ? 1 : -1;
}

function fitsSense(sense: Turn, edges: readonly [Turn, Turn, Turn]): boolean {
  const told = edges.filter((turn) => turn !== 0);
  const isAlike = told.every((turn) => turn === told[0]);
  if (sense === 1) return isAlike;
  return sense === 0 || told.length < 3 || !isAlike;
}

/** How an edge turns that runs so along the first plane's face, with the face to its left. */
export function turnOf(a: MovingPlane, b: MovingPlane, along: Vec3): Turn {
  if (isSamePlane(a, b)) return 0;
  const across = dot3(along, cross3(a.normal, b.normal));
  if (Math.abs(across) <= NOISE_RAD) return 0;
  return across > 0 ? 1 : -1;
}

/** A corner to be, before those in one point are one. */
interface Piece {
  readonly members: readonly (number | MovingPlane)[];
  readonly point: Vec3;
}

const piecesOf = ({ positions: [i, k, j], points: [ab, bc, ca], stop }: Triangle): readonly Piece[] =>
  stop
    ? [
        { members: [i, k, stop], point: ab },
        { members: [k, j, stop], point: bc },
        { members: [i, stop, j], point: ca },
      ]
    : [{ members: [i, k, j], point: ab }];

/** Triangles that share an edge and their point are one corner. */
function gathered(triangles: readonly Triangle[], count: number): SplitCorner {
  const pieces = triangles.flatMap(piecesOf);
  const cellOf = pieces.map((_, t) => t);
  pieces.forEach((a, t) => {
    pieces.slice(0, t).forEach((b, u) => {
      const isPlain = [...a.members, ...b.members].every((member) => typeof member === 'number');
      const shared = a.members.filter((member) => b.members.includes(member));
      if (!isPlain || shared.length < 2 || distance3(a.point, b.point) > NOISE_RAD) return;
      const [kept, merged] = [cellOf[u], cellOf[t]];
      for (const [i, cell] of cellOf.entries()) if (cell === merged) cellOf[i] = kept as number;
    });
  });
  const names = [...new Set(cellOf)];
  const cells = names.map((name) => {
    const own = pieces.filter((_, t) => cellOf[t] === name);
    const [first] = own as [Piece];
    if (own.length === 1) return first.members;
    return [...new Set(own.flatMap(({ members }) => members as readonly number[]))].sort((a, b) => a - b);
  });
  const chains = Array.from({ length: count }, (_, p) => {
    const near = ({ members }: Piece): number =>
      Math.min(...members.flatMap((q) => (typeof q === 'number' && q !== p ? [(q - p + count) % count] : [])));
    const own = pieces
      .map((piece, t) => ({ piece, cell: names.indexOf(cellOf[t] as number) }))
      .filter(({ piece }) => piece.members.includes(p))
      .sort((a, b) => near(a.piece) - near(b.piece));
    return own.map(({ cell }) => cell).filter((cell, i, all) => i === 0 || cell !== all[i - 1]);
  });
  return { cells, chains };
}
