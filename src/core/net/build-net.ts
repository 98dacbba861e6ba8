import type { Issue } from '../issue.ts';
import type { FlapSpec, PiecesMode, SeamChoices } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import type { Solid } from '../solid/solid.ts';
import { type HandCuts, readByHand } from './by-hand.ts';
import { carriersByHand } from './carriers-by-hand.ts';
import { type Carriers, chooseCarriers } from './choose-flaps.ts';
import { closingIssues, closingOf } from './closing-seam.ts';
import { fewestOn, type ReachAt } from './fewest.ts';
import { finishPiece, type PieceName, pieceNames } from './finish-piece.ts';
import { fitFlaps } from './fit-flaps.ts';
import { hemIssues, placeHems, trimHems } from './hem.ts';
import { seamMarks, withCongruence } from './marks.ts';
import type { Net, Seam } from './net.ts';
import { type CutPlan, planCuts, type SheetRoom } from './plan-cuts.ts';
import { flapDepth, type SeamFlap } from './seam-flap.ts';
import { placeOf, plainUnproven, seamIssues } from './seam-issues.ts';
import { abutmentsByHost, placesOf, seamSides } from './seam-sides.ts';
import { buildStrip } from './strip.ts';
import type { TakenRing } from './trim-flaps.ts';
import { type FlatSolid, flattenSolid } from './unfold.ts';

export interface NetOptions {
  readonly pieces: PiecesMode;
  readonly flaps: FlapSpec;
  /** Width of the strip turned under at free eaves, mm; missing: none. */
  readonly hem?: number | undefined;
  /** Match marks before its first: those of other layers of the roof. */
  readonly firstMark?: number;
  /** How pieces are searched for: rounds (by the number of panels where nothing is said), seed, and the least neck, mm. */
  readonly search?: CutPlan['search'];
  /** Edges joined by hand. */
  readonly seams?: SeamChoices | undefined;
  /** The sheets that the pieces may be cut from, for `fewest`; missing: any piece fits. */
  readonly sheets?: readonly SheetRoom[];
  /** Cut only some faces, to be glued to the others, which are parts of another layer; missing: cut all. */
  readonly only?: OnlyFaces | undefined;
}

export interface OnlyFaces {
  readonly faces: ReadonlySet<number>;
  /** Flaps that lie under the other faces already. */
  readonly taken: readonly TakenRing[];
}

export interface BuiltNet {
  readonly net: Net;
  readonly issues: readonly Issue[];
}

/**
 * Unfolds a solid into pieces with flaps. Issues: choices by hand that cannot be, seams that need tape, flaps narrower than asked,
 * nets that had to be split, pieces larger than any sheet where as few as fit are asked for.
 */
export function buildNet(solid: Solid, options: NetOptions): BuiltNet {
  const flatSolid = flattenSolid(solid);
  const byHand = readByHand(flatSolid, options.seams);
  const built = buildPlanned(flatSolid, byHand, options);
  const { pieces: mode, sheets = [] } = options;
  if (mode !== 'fewest' || sheets.length === 0) return built;
  return fewestOn(sheets, solid, options, built, (reachAt) => buildPlanned(flatSolid, byHand, options, reachAt));
}

function buildPlanned(
  flatSolid: FlatSolid,
  byHand: HandCuts,
  { pieces: mode, flaps: spec, hem, firstMark = 0, search = {}, sheets = [], only }: NetOptions,
  reachAt?: ReachAt,
): BuiltNet {
  const { solid } = flatSolid;
  const plan = { mode, byHand, sheets, search, only: only?.faces };
  const planned = planCuts(flatSolid, reachAt ? { ...plan, reachAt } : plan);
  const { bare } = planned;
  const issues: Issue[] = [...byHand.issues, ...planned.issues];

  const folded = new Set(bare.flatMap((piece) => piece.folds.map((fold) => fold.edge)));
  const isOwn = (face: number): boolean => only?.faces.has(face) ?? true;
  const seams = solid.edges.flatMap((edge, e) =>
    edge.faces.length === 2 && !folded.has(e) && edge.faces.some(isOwn) ? [e] : [],
  );
  const pieceOf = new Map(bare.flatMap(({ panels }, p) => panels.map(({ face }) => [face, p] as const)));
  const usual = chooseCarriers(solid, seams, spec.on, (face) => pieceOf.get(face) ?? -1 - face);
  const { carriers, asked } = carriersByHand(solid, only ? carriedBy(solid, usual, isOwn) : usual, byHand);
  if (!carriers.isLargest) issues.push(plainUnproven(carriers.plain.size));
  const { joins, placed, trimmed, strips } = fitFlaps(flatSolid, bare, seams, carriers, spec, {
    asked,
    taken: only?.taken ?? [],
  });

  const names = pieceNames(solid, bare);
  const marks = seamMarks(seams.length, firstMark);
  const abutments = abutmentsByHost(solid);
  const hemSpec = { ...spec, width: hem ?? 0, least: Math.min(spec.least, (hem ?? 0) / 2) };
  const hemsAt = hem === undefined ? new Map<number, SeamFlap[]>() : bySeam(trimHems(solid, hem, hemSpec));
  const pieces = bare.map((piece, p) => {
    const flaps = placed[p] ?? [];
    const hems = placeHems(flatSolid, piece, hemsAt, hemSpec, flaps);
    return finishPiece(flatSolid, piece, { flaps, hems, abutments, name: names[p] as PieceName });
  });
  if (hem !== undefined) issues.push(...hemIssues(solid, pieces, hem));
  const places = placesOf(pieces);
  const withFlap = new Map(pieces.flatMap((piece) => piece.flaps.map((flap) => [flap.edge, flapDepth(flap)] as const)));
  const isLeftOut = (edge: number, join: Seam['join']): boolean =>
    asked.get(edge) === join || (spec.on === 'none' && !byHand.seams.has(edge));
  const joined = seams.map((edge, i): Seam => {
    const depth = withFlap.get(edge);
    const found = joins.get(edge) ?? 'tape';
    // On what is shorter than any flap there is nothing to tape, unless a maker asks for it.
    const isShort = found === 'tape' && !asked.has(edge) && (solid.edges[edge]?.length ?? 0) < spec.least;
    const join = isShort ? 'none' : found;
    const outcome = { join, depth, trimmed: trimmed.get(edge) ?? [], isLeftOut: isLeftOut(edge, join) };
    issues.push(...seamIssues(solid, edge, outcome, spec));
    return { edge, mark: marks[i] as string, join, sides: seamSides(flatSolid, pieces, places, edge) };
  });
  const closing = only ? null : closingOf(solid, pieces, joined);
  if (closing?.seam != null)
    issues.push(...closingIssues(closing, edgeName(solid, closing.seam), placeOf(solid, closing.seam)));
  const loose = joined.flatMap(({ edge, mark }) => {
    const halves = strips.get(edge);
    const name = { id: `strip-${solid.edges[edge]?.id}`, title: `Strip ${mark}` };
    return halves ? [buildStrip(solid, edge, halves, name)] : [];
  });
  return { net: { pieces: withCongruence([...pieces, ...loose]), seams: joined, closing }, issues };
}

function bySeam(flaps: readonly SeamFlap[]): Map<number, SeamFlap[]> {
  const found = new Map<number, SeamFlap[]>();
  for (const flap of flaps) found.set(flap.seam, [...(found.get(flap.seam) ?? []), flap]);
  return found;
}

/** Only faces that are cut here can carry a flap. */
function carriedBy(solid: Solid, { from, mayTurn, ...rest }: Carriers, isOwn: (face: number) => boolean): Carriers {
  const between = (seam: number): readonly number[] => (solid.edges[seam]?.faces ?? []).filter(isOwn);
  return {
    ...rest,
    from: new Map([...from].map(([seam, face]) => [seam, isOwn(face) ? face : (between(seam)[0] as number)])),
    mayTurn: new Map([...mayTurn].filter(([seam]) => between(seam).length === 2)),
  };
}
