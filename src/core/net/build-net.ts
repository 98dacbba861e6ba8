import { at, boxOf } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { sub2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Issue, Place } from '../issue.ts';
import type { FlapSpec, PiecesMode, SeamChoices } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import { flattenFace, pointInFace } from '../solid/face-frame.ts';
import { edgePath, type Solid } from '../solid/solid.ts';
import { isAtMost } from '../tolerance.ts';
import { type HandCuts, readByHand } from './by-hand.ts';
import { carriersByHand } from './carriers-by-hand.ts';
import { type Carriers, chooseCarriers } from './choose-flaps.ts';
import { closingIssues, closingOf } from './closing-seam.ts';
import { fitFlaps } from './fit-flaps.ts';
import { hemIssues, type PlacedHem, placeHems, trimHems } from './hem.ts';
import { seamMarks, withCongruence } from './marks.ts';
import type { GlueLine, Net, NetPoint, Panel, Piece, Ruling, Seam, SeamSide } from './net.ts';
import { type Beyond, traceOutline } from './outline.ts';
import type { PlacedFlap } from './place-flaps.ts';
import { type CutPlan, fitsOn, planCuts, type SheetRoom } from './plan-cuts.ts';
import { flapDepth, type SeamFlap } from './seam-flap.ts';
import { buildStrip } from './strip.ts';
import { SAGITTA } from './teeth.ts';
import type { TakenRing } from './trim-flaps.ts';
import { endsOnPanel, type FlatSolid, flattenSolid, stretchOf, type Unfolded } from './unfold.ts';

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
  const { pieces: mode, sheets = [], flaps, hem = 0 } = options;
  const flatSolid = flattenSolid(solid);
  const byHand = readByHand(flatSolid, options.seams);
  const built = buildPlanned(flatSolid, byHand, options);
  if (mode !== 'fewest' || sheets.length === 0) return built;
  const over = (one: BuiltNet): Piece[] => one.net.pieces.filter(({ width, height }) => !fitsOn(sheets, width, height));
  const tooLarge = over(built);
  if (tooLarge.length === 0) return built;
  // With their flaps some pieces are too large: once more, with room left for every flap there may be.
  const reachAt = (edge: number): number => (solid.edges[edge]?.faces.length === 2 ? flaps.width : hem);
  const wary = buildPlanned(flatSolid, byHand, options, reachAt);
  const left = over(wary);
  const [best, large] = left.length < tooLarge.length ? [wary, left] : [built, tooLarge];
  return { net: best.net, issues: [...best.issues, ...large.map((piece) => overSheet(solid, piece))] };
}

function buildPlanned(
  flatSolid: FlatSolid,
  byHand: HandCuts,
  { pieces: mode, flaps: spec, hem, firstMark = 0, search = {}, sheets = [], only }: NetOptions,
  reachAt?: (edge: number) => number,
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
    const join = joins.get(edge) ?? 'tape';
    if (depth === undefined)
      issues.push(
        join === 'strip'
          ? joinedByStrip(solid, edge, isLeftOut(edge, join), spec)
          : needsTape(solid, edge, isLeftOut(edge, join), spec),
      );
    else if (!isAtMost(Math.min(spec.width, reachOf(trimmed.get(edge))), depth))
      issues.push(narrowFlap(solid, edge, spec.width, depth));
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

interface PieceName {
  readonly id: string;
  readonly title: string;
}

function pieceNames(solid: Solid, pieces: readonly Unfolded[]): readonly PieceName[] {
  return pieces.map(({ panels }) => {
    const faces = panels.map((panel) => solid.faces[panel.face] as Solid['faces'][number]);
    const [first, second] = faces;
    if (!first) throw new Error('a piece without panels');
    if (!second) return { id: first.id, title: first.title };
    if (panels.length === solid.faces.length) return { id: 'net', title: 'Whole roof' };
    return {
      id: `${first.id}-net`,
      title:
        faces.length === 2
          ? `${first.title} and ${second.title.toLowerCase()}`
          : `${first.title} and ${faces.length - 1} more`,
    };
  });
}

/** What finishing a piece asks for beside its bare panels. */
interface Finishing {
  readonly flaps: readonly PlacedFlap[];
  readonly hems: readonly PlacedHem[];
  readonly abutments: ReadonlyMap<number, readonly number[]>;
  readonly name: PieceName;
}

function finishPiece(
  flatSolid: FlatSolid,
  { panels: loose, folds: looseFolds }: Unfolded,
  { flaps, hems, abutments, name }: Finishing,
): Piece {
  const { solid, edgesOf } = flatSolid;
  const flapAt = loose.map(() => new Map<number, PlacedFlap>());
  for (const placed of flaps) flapAt[placed.flap.panel]?.set(placed.position, placed);
  const hemAt = loose.map(() => new Map<number, PlacedHem>());
  for (const placed of hems) hemAt[placed.hem.panel]?.set(placed.position, placed);
  const foldAt = new Map(looseFolds.map((fold) => [fold.edge, fold]));
  const beyond = (panel: number, index: number): Beyond => {
    const edge = edgesOf[loose[panel]?.face ?? -1]?.[index] ?? -1;
    const flap = flapAt[panel]?.get(index);
    if (flap) return { flap };
    const hem = hemAt[panel]?.get(index);
    if (hem) return { flap: { flap: hem.hem, edges: hem.edges } };
    const fold = foldAt.get(edge);
    if (fold?.panels[0] !== panel) return {};
    const child = fold.panels[1];
    return { child: { panel: child, edge: (edgesOf[loose[child]?.face ?? -1] ?? []).indexOf(fold.edge) } };
  };
  const outline = traceOutline(loose, beyond);
  const box = boxOf(outline);
  const shift = (p: NetPoint): NetPoint => sub2(p, [box.minX, box.minY]);
  const shiftPair = ([p, q]: readonly [NetPoint, NetPoint]): [NetPoint, NetPoint] => [shift(p), shift(q)];
  const panels = loose.map(({ face, polygon }) => ({ face, polygon: polygon.map(shift) }));
  return {
    ...name,
    outline: outline.map(shift),
    panels,
    flaps: flaps.map(({ flap }) => ({ ...flap, polygon: flap.polygon.map(shift) })),
    hems: hems.map(({ hem }) => ({ ...hem, polygon: hem.polygon.map(shift) })),
    folds: looseFolds.map((fold) => ({ ...fold, ends: shiftPair(fold.ends) })),
    glueLines: panels.flatMap((laid, panel) =>
      (abutments.get(laid.face) ?? []).flatMap((edge) =>
        glueLinesOn(solid, edgePoints(solid, edge), laid).map((ends): GlueLine => ({ edge, panel, ends })),
      ),
    ),
    rulings: panels.flatMap(({ face, polygon }, panel) =>
      rulingsToShow(solid.faces[face] as Solid['faces'][number]).map(
        ([high, low]): Ruling => ({ panel, ends: [at(polygon, high), at(polygon, low)] }),
      ),
    ),
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
  };
}

/** How far a seam's flap was meant to reach: the teeth of a tight curve are shorter than the width asked for, and bulge at their base. */
const reachOf = (flaps: readonly SeamFlap[] = []): number =>
  Math.min(...flaps.map(({ meant, edges }) => (edges > 1 ? meant - 2 * SAGITTA : meant)));

/** So many rulings of a smooth panel are shown. */
const SHOWN_RULINGS = 6;

const rulingsToShow = ({ roll }: Solid['faces'][number]): readonly (readonly [number, number])[] => {
  const inner = roll?.rulings.slice(1, -1) ?? [];
  const step = Math.max(1, Math.round(inner.length / SHOWN_RULINGS));
  return inner.filter((_, i) => i % step === Math.floor(step / 2));
};

/** For each face the abutments on its inside. */
export function abutmentsByHost({ edges }: Solid): ReadonlyMap<number, readonly number[]> {
  const byHost = new Map<number, number[]>();
  edges.forEach(({ role, faces }, e) => {
    const host = faces[1];
    if (role === 'abutment' && host !== undefined) byHost.set(host, [...(byHost.get(host) ?? []), e]);
  });
  return byHost;
}

/** Where a wall meets the inside of a panel laid flat, in the direction of the wall's loop. */
export function hostLine(
  { solid, flat }: FlatSolid,
  edge: number,
  { face, polygon }: { readonly face: number; readonly polygon: readonly Vec2[] },
): readonly [Vec2, Vec2] {
  const own = flat[face] as readonly Vec2[];
  const motion: Rigid2 = alignSegments(at(own, 0), at(own, 1), at(polygon, 0), at(polygon, 1));
  return (solid.edges[edge] as Solid['edges'][number]).ends.map((v) =>
    apply2(motion, pointInFace(solid, face, solid.vertices[v] as Vec3)),
  ) as [Vec2, Vec2];
}

/** The points of an edge in space, from end to end. */
export const edgePoints = ({ vertices, edges }: Solid, edge: number): readonly Vec3[] =>
  edgePath(edges[edge] as Solid['edges'][number]).map((v) => vertices[v] as Vec3);

/** The lines along which something is glued on a panel laid flat, below points at its face: one, or round a curve many. */
export function glueLinesOn(
  solid: Solid,
  points: readonly Vec3[],
  { face, polygon }: Panel,
): readonly (readonly [Vec2, Vec2])[] {
  const own = flattenFace(solid, face);
  const motion = alignSegments(at(own, 0), at(own, 1), at(polygon, 0), at(polygon, 1));
  const path = points.map((point) => apply2(motion, pointInFace(solid, face, point)));
  return path.slice(1).map((end, i) => [path[i] as Vec2, end] as const);
}

/** For each face the piece that it is a panel of, and which of its panels. */
type Places = ReadonlyMap<number, readonly [piece: number, panel: number]>;

export const placesOf = (pieces: readonly Piece[]): Places =>
  new Map(pieces.flatMap((piece, p) => piece.panels.map(({ face }, i) => [face, [p, i]] as const)));

export function seamSides(
  flatSolid: FlatSolid,
  pieces: readonly Piece[],
  places: Places,
  edge: number,
): readonly [SeamSide, SeamSide] {
  const { faces, role, via } = flatSolid.solid.edges[edge] as Solid['edges'][number];
  return faces.map((face, side): SeamSide => {
    const place = places.get(face);
    if (!place) return { piece: -1, panel: face, ends: lineOnFace(flatSolid, edge, face) };
    const [piece, panel] = place;
    const laid = pieces[piece]?.panels[panel] as Panel;
    const isHost = role === 'abutment' && side === 1;
    const ends = isHost ? hostLine(flatSolid, edge, laid) : endsOnPanel(flatSolid, edge, face, laid.polygon);
    return { piece, panel, ends, ...(via && !isHost ? { curve: curveOnPanel(flatSolid, edge, laid) } : {}) };
  }) as [SeamSide, SeamSide];
}

/** An edge on a face that another layer cuts, in the face's own frame and the direction in which it is drawn there. */
function lineOnFace({ solid }: FlatSolid, edge: number, face: number): readonly [Vec2, Vec2] {
  const { ends, faces, role } = solid.edges[edge] as Solid['edges'][number];
  const [a, b] = ends.map((v) => pointInFace(solid, face, solid.vertices[v] as Vec3)) as [Vec2, Vec2];
  return faces[0] === face || role === 'abutment' ? [a, b] : [b, a];
}

function curveOnPanel(flatSolid: FlatSolid, edge: number, { face, polygon }: Panel): readonly NetPoint[] {
  const { first, count } = stretchOf(flatSolid, edge, face);
  return Array.from({ length: count + 1 }, (_, i) => at(polygon, first + i));
}

const placeOf = (solid: Solid, edge: number): Place => ({ edges: [(solid.edges[edge] as Solid['edges'][number]).id] });

const overSheet = (solid: Solid, { title, panels, width, height }: Piece): Issue => ({
  level: 'warning',
  code: 'piece-over-sheet',
  path: 'pieces',
  numbers: { width, height },
  place: { faces: panels.map(({ face }) => (solid.faces[face] as Solid['faces'][number]).id) },
  message: `${title} is {width} wide and {height} high, larger than any sheet of this layer, and cannot be cut in smaller pieces at its edges.`,
  remedy: 'Take a larger sheet for this layer, or a smaller roof.',
});

const needsTape = (solid: Solid, edge: number, isLeftOut: boolean, { least }: FlapSpec): Issue => ({
  level: 'note',
  code: isLeftOut ? 'seam-without-flap' : 'flap-too-small',
  path: '',
  numbers: { length: solid.edges[edge]?.length ?? 0, least },
  place: placeOf(solid, edge),
  message: isLeftOut
    ? `The ${edgeName(solid, edge)} has no flap: join its {length} with tape.`
    : `The ${edgeName(solid, edge)} leaves less than {least} of flap: join its {length} with tape.`,
});

const joinedByStrip = (solid: Solid, edge: number, isLeftOut: boolean, { least }: FlapSpec): Issue => ({
  level: 'note',
  code: 'seam-strip',
  path: '',
  numbers: { length: solid.edges[edge]?.length ?? 0, least },
  place: placeOf(solid, edge),
  message: isLeftOut
    ? `The ${edgeName(solid, edge)} has no flap: a strip of its own joins it.`
    : `The ${edgeName(solid, edge)} has no flap of {least} or more: a strip of its own joins it.`,
});

const plainUnproven = (plain: number): Issue => ({
  level: 'note',
  code: 'plain-unproven',
  path: '',
  numbers: { plainCount: plain },
  message:
    'With so many panels not every choice was tried: {plainCount} pieces carry no flap, and perhaps one more could do without.',
});

const narrowFlap = (solid: Solid, edge: number, wanted: number, found: number): Issue => ({
  level: 'note',
  code: 'flap-narrow',
  path: '',
  numbers: { wanted, found },
  place: placeOf(solid, edge),
  message: `The flap at the ${edgeName(solid, edge)} is {found} wide instead of {wanted}: no more fits under the other panel.`,
});
