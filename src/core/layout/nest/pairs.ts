import { boxOf, ringArea } from '../../geometry/polygon.ts';
import type { Vec2 } from '../../geometry/vector.ts';
import { isSameAngle } from '../../tolerance.ts';
import { type Construction, type Laid, openSheet } from './construct.ts';
import { convexHull } from './convex.ts';
import type { Job, TurnedPiece, TurnedProblem } from './job.ts';
import { outerRing } from './outer-ring.ts';
import type { Ring } from './problem.ts';
import type { Pose, Shape, Shapes } from './shapes.ts';

/** What is laid as one: the hull of a piece, or of two that lie heads and tails. */
export interface Unit extends TurnedPiece {
  readonly members: readonly Member[];
}

/** Point p of a piece's outline lies at R(rotation) p + shift in the frame of its unit. */
interface Member {
  readonly piece: number;
  readonly rotation: number;
  readonly shift: Vec2;
}

/** Pieces of one shape that may go to the same papers at the same turns. */
interface Lot {
  readonly upright: Shape;
  readonly turned: Shape;
  readonly choices: TurnedPiece['choices'];
  readonly gap: number;
  readonly pieces: { readonly piece: number; readonly upright: Vec2; readonly turned: Vec2 }[];
}

interface Couple {
  readonly a: Lot;
  readonly b: Lot;
  /** Where the box of b, turned, lies beside that of a. */
  readonly at: Vec2;
  readonly hull: Ring;
  /** Area of the hull over that of both. */
  readonly waste: number;
}

/** Of the lots that follow by size so many are tried beside each, where neither side differs by more than this share. */
const NEXT = 3;
const ALIKE = 0.15;
/** Where two fit together is not asked of outlines that have more parts than so many, one by the other. */
const MOST_PARTS = 100;
/** Two whose hull is larger than both by this factor lie better apart. */
const MOST_WASTE = 1.2;
/** What the upright box of a couple counts beside its hull: a block leaves less at the edge of a sheet than a kite. */
const BOX = 1;

/** Pieces two by two, each couple where its hull is least; those that find no partner alone. */
export function pairUp(problem: TurnedProblem, { shapes }: Job): readonly Unit[] {
  const lots = lotsOf(problem, shapes).sort((a, b) => b.upright.area - a.upright.area || a.upright.id - b.upright.id);
  const couples = lots
    .filter(
      ({ choices }) =>
        choices.length > 0 && choices.every(({ turns }) => turns.every((turn) => hasOpposite(turns, turn))),
    )
    .flatMap((a, i, able) =>
      able.slice(i, i + 1 + NEXT).flatMap((b) => (areAlike(a, b) ? [closest(shapes, a, b)] : [])),
    )
    .filter(({ waste }) => waste <= MOST_WASTE)
    .sort((p, q) => p.waste - q.waste);
  const left = new Map(lots.map((lot) => [lot, [...lot.pieces]]));
  const units: Unit[] = [];
  for (const { a, b, at, hull } of couples) {
    const [first, second] = [left.get(a)!, left.get(b)!];
    while (a === b ? first.length > 1 : first.length > 0 && second.length > 0) {
      const [p, q] = [first.shift()!, second.shift()!];
      const shift: Vec2 = [at[0] + q.turned[0], at[1] + q.turned[1]];
      const members = [
        { piece: p.piece, rotation: 0, shift: p.upright },
        { piece: q.piece, rotation: Math.PI, shift },
      ];
      units.push({ outline: hull, choices: a.choices, members });
    }
  }
  return [...units, ...[...left.values()].flat().map(({ piece }) => alone(problem, piece))];
}

/** A piece as a unit of its own. */
export function alone(problem: TurnedProblem, piece: number): Unit {
  const { outline, choices } = problem.pieces[piece]!;
  return { outline: convexHull(outline), choices, members: [{ piece, rotation: 0, shift: [0, 0] }] };
}

const hasOpposite = (turns: readonly number[], turn: number): boolean =>
  turns.some((other) => isSameAngle(Math.abs(other - turn), Math.PI));

const areAlike = ({ upright: a, ...one }: Lot, { upright: b, ...other }: Lot): boolean =>
  Math.abs(a.width - b.width) <= ALIKE * a.width &&
  Math.abs(a.height - b.height) <= ALIKE * a.height &&
  a.parts.length * b.parts.length <= MOST_PARTS &&
  JSON.stringify(one.choices) === JSON.stringify(other.choices);

function lotsOf({ pieces, sheets }: TurnedProblem, shapes: Shapes): Lot[] {
  const lots = new Map<string, Lot>();
  pieces.forEach(({ outline, choices }, piece) => {
    const ring = outerRing(outline);
    const [upright, turned] = [shapes.pose(ring, 0), shapes.pose(ring, Math.PI)];
    const key = `${upright.shape.id} ${JSON.stringify(choices)}`;
    const gap = Math.max(0, ...choices.map(({ kind }) => sheets[kind]!.gap));
    const lot = lots.get(key) ?? { upright: upright.shape, turned: turned.shape, choices, gap, pieces: [] };
    lot.pieces.push({ piece, upright: upright.shift, turned: turned.shift });
    lots.set(key, lot);
  });
  return [...lots.values()];
}

/** Each border line is looked at in so many places, the best of all then drawn nearer by halves so many times. */
const PLACES = 4;
const HALVES = 8;

/**
 * Of the places where b, turned half round, touches a: the one with the least hull and box. Along one border line the area of the hull has no
 * second low (it is a convex function of the way), so that halving comes near it.
 */
function closest(shapes: Shapes, a: Lot, b: Lot): Couple {
  const { border } = shapes.noFit(a.upright, b.turned, a.gap);
  const [own, other] = [convexHull(a.upright.ring), convexHull(b.turned.ring)];
  let best = { at: [0, 0] as Vec2, hull: own, value: Number.POSITIVE_INFINITY, line: 0, share: 0 };
  const ask = (line: number, share: number): void => {
    if (share < 0 || share > 1) return;
    const dx = border[line]! + share * (border[line + 2]! - border[line]!);
    const dy = border[line + 1]! + share * (border[line + 3]! - border[line + 1]!);
    const points = [...own, ...other.map(([x, y]): Vec2 => [x + dx, y + dy])];
    const { minX, minY, maxX, maxY } = boxOf(points);
    const hull = convexHull(points);
    const value = ringArea(hull) + BOX * (maxX - minX) * (maxY - minY);
    if (value < best.value) best = { at: [dx, dy], hull, value, line, share };
  };
  for (let line = 0; line < border.length; line += 4)
    for (let place = 0; place <= PLACES; place++) ask(line, place / PLACES);
  for (let step = 0.5 / PLACES, k = 0; k < HALVES; step /= 2, k++) {
    const { line, share } = best;
    ask(line, share - step);
    ask(line, share + step);
  }
  return { a, b, at: best.at, hull: best.hull, waste: ringArea(best.hull) / (a.upright.area + b.upright.area) };
}

/** A layout of units as one of the pieces themselves. */
export function takenApart(job: Job, problem: TurnedProblem, units: readonly Unit[], laid: Construction): Construction {
  const own = (unit: number, kind: number, pose: Pose, x: number, y: number): Laid[] =>
    units[unit]!.members.map(({ piece, rotation, shift: [px, py] }) => {
      const { shape, shift } = job.shapes.pose(outerRing(problem.pieces[piece]!.outline), rotation + pose.rotation);
      const [cos, sin] = [Math.cos(pose.rotation), Math.sin(pose.rotation)];
      return {
        piece,
        pose: job.pieces[piece]!.poses[kind]!.find((one) => one.shape === shape)!,
        x: x + pose.shift[0] + cos * px - sin * py - shift[0],
        y: y + pose.shift[1] + sin * px + cos * py - shift[1],
      };
    });
  return {
    sheets: laid.sheets.map((sheet) => ({
      ...openSheet(job, sheet.kind, sheet.sheet),
      laid: sheet.laid.flatMap(({ piece, pose, x, y }) => own(piece, sheet.kind, pose, x, y)),
    })),
    leftOut: laid.leftOut.flatMap((unit) => units[unit]!.members.map(({ piece }) => piece)),
  };
}
