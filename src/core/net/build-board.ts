import { at, boxOf, isInside } from '../geometry/polygon.ts';
import { cross2, lerp2, sub2, type Vec2 } from '../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { BoardEdges } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import type { Face, Solid } from '../solid/solid.ts';
import { type BoardEdgeCut, boardCuts } from './board-edges.ts';
import { chooseCarriers } from './choose-flaps.ts';
import { closingOf } from './closing-seam.ts';
import { outerEnds } from './cut-ends.ts';
import { cutRing } from './cut-ring.ts';
import { seamMarks, withCongruence } from './marks.ts';
import type { GlueLine, Net, NetPoint, Piece, Seam, SeamSide } from './net.ts';
import { abutmentsByHost, hostLine, placesOf, seamSides } from './seam-sides.ts';
import { type FlatSolid, flattenSolid } from './unfold.ts';

export interface BoardOptions {
  /** mm */
  readonly thickness: number;
  readonly edges: BoardEdges;
  /** Match marks before its first: those of other layers of the roof. */
  readonly firstMark?: number;
  /** Cut only some faces, to be glued to the surface of the others, which are parts of another layer; missing: cut all. */
  readonly only?: ReadonlySet<number>;
}

/**
 * A net of board: every face of the solid, which is the outside, a piece of its own, its edges cut for the thickness and glued.
 * Of butted boards those lap that would carry no flap in paper: as many as can be, no two of them side by side. Fails where a
 * face is rolled, or where the thickness leaves nothing of a panel.
 */
export function buildBoard(solid: Solid, { thickness, edges: mode, firstMark = 0, only }: BoardOptions): Result<Net> {
  const isOwn = (face: number): boolean => only?.has(face) ?? true;
  const rolled = solid.faces.filter(({ roll }, f) => roll && isOwn(f));
  if (rolled.length > 0) return fail(boardRolled(rolled));
  const flatSolid = flattenSolid(solid);
  const seams = solid.edges.flatMap(({ faces }, e) => (faces.length === 2 && faces.some(isOwn) ? [e] : []));
  const lapped =
    mode === 'butted' ? chooseCarriers(solid, seams, 'alternate', (face) => face).from : new Map<number, number>();
  const laps = (edge: number): number | undefined => {
    const under = lapped.get(edge);
    return under === undefined ? undefined : solid.edges[edge]?.faces.find((face) => face !== under);
  };
  const cuts = boardCuts(solid, { thickness, mode, only }, laps);
  const abutments = abutmentsByHost(solid);
  const bare = solid.faces.map((face, f) =>
    isOwn(f) ? boardPiece(flatSolid, face, f, { thickness, cuts: cuts[f] ?? [], abutments }) : null,
  );
  const vanished = solid.faces.filter((_, f) => isOwn(f) && bare[f] === null);
  if (vanished.length > 0) return fail(boardTooThick(vanished, thickness));
  const pieces = bare.filter((piece) => piece !== null);
  const places = placesOf(pieces);
  const marks = seamMarks(seams.length, firstMark);
  const joined = seams.map((edge, i): Seam => {
    const sides = seamSides(flatSolid, pieces, places, edge).map((side): SeamSide => {
      const piece = pieces[side.piece];
      // The panel that a seat is glued to is cut with its own layer.
      if (!piece) return side;
      const own = piece.board?.edges.findIndex((cut) => cut.edge === edge) ?? -1;
      // On the inside of a panel that a wall meets, no edge of its own lies there.
      return own < 0 ? side : { ...side, ends: outerEnds(piece, own) };
    }) as [SeamSide, SeamSide];
    return { edge, mark: marks[i] as string, join: 'glue', sides };
  });
  const net: Net = {
    pieces: withCongruence(pieces),
    seams: joined,
    closing: only ? null : closingOf(solid, pieces, joined),
  };
  return succeed(net, joined.length === 0 ? [] : [boardGlued(solid, joined)]);
}

interface Cutting {
  readonly thickness: number;
  readonly cuts: readonly BoardEdgeCut[];
  readonly abutments: ReadonlyMap<number, readonly number[]>;
}

function boardPiece(
  flatSolid: FlatSolid,
  { id, title }: Face,
  face: number,
  { thickness, cuts, abutments }: Cutting,
): Piece | null {
  const polygon = flatSolid.flat[face] as readonly Vec2[];
  const outer = cutRing(
    polygon,
    cuts.map((cut) => cut.outer),
  );
  const inner = cutRing(
    polygon,
    cuts.map((cut) => cut.inner),
  );
  const outline = cutRing(
    polygon,
    cuts.map((cut) => Math.min(cut.outer, cut.inner)),
  );
  if (!outer || !inner || !outline) return null;
  const box = boxOf(outline);
  const shift = (p: NetPoint): NetPoint => sub2(p, [box.minX, box.minY]);
  const laid = { face, polygon: polygon.map(shift) };
  return {
    id,
    title,
    outline: outline.map(shift),
    panels: [laid],
    flaps: [],
    hems: [],
    folds: [],
    glueLines: (abutments.get(face) ?? []).flatMap((edge): readonly GlueLine[] => {
      const ends = insideOf(hostLine(flatSolid, edge, laid), inner.map(shift));
      return ends ? [{ edge, panel: 0, ends }] : [];
    }),
    rulings: [],
    board: { thickness, outer: outer.map(shift), inner: inner.map(shift), edges: cuts },
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
  };
}

/** The longest stretch of a line that lies inside a ring; null where none does. */
function insideOf(
  [a, b]: readonly [NetPoint, NetPoint],
  ring: readonly NetPoint[],
): readonly [NetPoint, NetPoint] | null {
  const along = sub2(b, a);
  const crossings = ring.flatMap((p, i) => {
    const side = sub2(at(ring, i + 1), p);
    const turn = cross2(along, side);
    if (turn === 0) return [];
    const t = cross2(sub2(p, a), side) / turn;
    const s = cross2(sub2(p, a), along) / turn;
    return s >= 0 && s <= 1 && t > 0 && t < 1 ? [t] : [];
  });
  const places = [0, ...crossings.sort((p, q) => p - q), 1];
  const stretches = places.slice(1).map((to, i): readonly [number, number] => [places[i] as number, to]);
  const inside = stretches.filter(([from, to]) => isInside(lerp2(a, b, (from + to) / 2), ring));
  const longest = inside.toSorted(([p, q], [r, s]) => s - r - (q - p))[0];
  return longest ? [lerp2(a, b, longest[0]), lerp2(a, b, longest[1])] : null;
}

const idsOf = (faces: readonly Face[]): readonly string[] => faces.map(({ id }) => id);
const titlesOf = (faces: readonly Face[]): string => faces.map(({ title }) => title.toLowerCase()).join(', ');

const boardRolled = (faces: readonly Face[]): Issue => ({
  level: 'error',
  code: 'board-rolled',
  path: 'as',
  message: `Board cannot be rolled, and this roof has round panels: ${titlesOf(faces)}.`,
  remedy: 'Take a shell of card, or a roof with flat panels such as a spire of many sides.',
  place: { faces: idsOf(faces) },
});

const boardTooThick = (faces: readonly Face[], thickness: number): Issue => ({
  level: 'error',
  code: 'board-too-thick',
  path: 'stock',
  numbers: { thickness },
  message: `Board of {thickness} leaves nothing of a panel once its edges are cut: ${titlesOf(faces)}.`,
  remedy: 'Take thinner board, mitred edges, or a larger roof.',
  place: { faces: idsOf(faces) },
});

function boardGlued(solid: Solid, seams: readonly Seam[]): Issue {
  const { edges } = solid;
  const ids = seams.map(({ edge }) => edges[edge]?.id ?? '');
  const length = seams.reduce((sum, { edge }) => sum + (edges[edge]?.length ?? 0), 0);
  return {
    level: 'note',
    code: 'board-glued',
    path: '',
    numbers: { length, seamsCount: ids.length },
    message: `Board carries no flaps: its {seamsCount} seams, {length} in all, are glued edge to edge: ${seams.map(({ edge }) => edgeName(solid, edge)).join(', ')}.`,
    place: { edges: ids },
  };
}
