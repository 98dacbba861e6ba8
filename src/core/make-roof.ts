import { type Fit, fitRoof } from './fit/fit.ts';
import { seatFit, seatJams } from './fit/seat-fit.ts';
import { fail, type Issue, type Result, spell, succeed } from './issue.ts';
import { insideOf, layerSolids, wallSeat } from './layers/layer-solids.ts';
import { countedThickness } from './layers/thickness.ts';
import { buildBoard } from './net/build-board.ts';
import { buildNet } from './net/build-net.ts';
import { hemRoom } from './net/hem-room.ts';
import type { Net } from './net/net.ts';
import type { SheetRoom } from './net/plan-cuts.ts';
import type { LayerSpec, Project, RoofSpec, ShapeValues, Stock } from './project/project.ts';
import { findKind } from './roofs/catalogue.ts';
import { addFascia } from './roofs/construct/fascia.ts';
import { fasciaRoom, fasciaTooHigh } from './roofs/construct/fascia-room.ts';
import { type MadeSeat, makeSeat, withSeatLines } from './seat/make-seat.ts';
import type { Solid } from './solid/solid.ts';
import { CUT_MM } from './tolerance.ts';
import { formatLength } from './units/units.ts';

export interface MadeLayer {
  readonly spec: LayerSpec;
  /** Thickness that counts, mm. */
  readonly thickness: number;
  /** The surface this layer's panels are cut to. */
  readonly solid: Solid;
  readonly net: Net;
}

/** The seat of a roof as a layer of its own. */
export interface SeatLayer extends MadeLayer {
  readonly seat: MadeSeat;
}

export interface MadeRoof {
  readonly spec: RoofSpec;
  /** Null where the shape has no roof; then the issues say why. */
  readonly made: {
    readonly solid: Solid;
    readonly layers: readonly MadeLayer[];
    readonly seat: SeatLayer | null;
    readonly fit: Fit;
  } | null;
  readonly issues: readonly Issue[];
}

/** How long is searched for nets. */
export interface Effort {
  /** For each group of panels; missing: by their number. */
  readonly rounds?: number;
}

/** One roof by itself: what a change of its parameters asks for. `index` is its place in the project, for the issues' paths. */
export function makeRoof(spec: RoofSpec, project: Project, index: number, effort: Effort = {}): MadeRoof {
  const path = `roofs[${index}]`;
  const built = buildRoof(spec);
  if (!built.ok) return { spec, made: null, issues: spelled(built.issues, project, path) };
  const solid = built.value;
  const issues: Issue[] = [...spelled(built.issues, project, path)];
  const stacked = spec.layers.map((layer) => {
    const stock = project.stock.find(({ id }) => id === layer.stock[0]) as Stock;
    return { as: layer.as, thickness: countedThickness(layer, stock) };
  });
  const inside = insideOf(solid, stacked);
  const { body } = spec;
  const hasPlate = spec.seat?.plate ?? false;
  const stands = inside.ok && !hasPlate ? wallSeat(solid, inside.value, body) : null;
  const surfaces = layerSolids(solid, stacked, stands).map((surface, l) => {
    issues.push(...spelled(onLayer(surface.issues, l), project, `${path}.layers[${l}]`));
    return surface.ok ? surface.value : null;
  });
  if (!surfaces.every((surface) => surface !== null)) return { spec, made: null, issues };
  let firstMark = 0;
  const layers: MadeLayer[] = [];
  for (const [l, layer] of spec.layers.entries()) {
    const own = surfaces[l] as Solid;
    const thickness = stacked[l]?.thickness ?? 0;
    const built = netOf(layer, own, { project, thickness, firstMark, effort });
    issues.push(...spelled(onLayer(built.issues, l), project, `${path}.layers[${l}]`));
    if (!built.ok) return { spec, made: null, issues };
    firstMark += built.value.seams.length;
    layers.push({ spec: layer, thickness, solid: own, net: built.value });
  }
  if (!inside.ok) return { spec, made: null, issues: [...issues, ...spelled(inside.issues, project, path)] };
  const { fit, issues: fitIssues } = fitRoof(solid, layers, {
    ...project,
    inside: inside.value,
    body,
    neighbours: spec.neighbours,
    hasPlate,
  });
  issues.push(...spelled(fitIssues, project, path));
  const top = (body?.height ?? 0) - fit.rest;
  const seat = makeSeatLayer(spec, project, { inside: inside.value, layers }, body ? top : null);
  issues.push(...spelled(seat.issues, project, path));
  layers.forEach(({ spec: { hem, flaps }, solid: own }, l) => {
    if (hem === undefined) return;
    const walls = body ? [{ ...body, bottom: -fit.rest, top, name: 'the walls of the body' }] : [];
    const { seat: collar } = seat.layer ?? {};
    const under = collar
      ? [...walls, { outline: collar.plan, bottom: collar.foot, top: Number.POSITIVE_INFINITY, name: 'the seat' }]
      : walls;
    issues.push(...spelled(onLayer(hemRoom(own, hem, flaps, under), l), project, `${path}.layers[${l}]`));
  });
  const marked = seat.layer
    ? layers.map((layer, l) => (l === 0 ? { ...layer, net: withSeatLines(layer, seat.layer as SeatLayer) } : layer))
    : layers;
  const loose =
    seat.layer && spec.seat
      ? seatFit({ ...spec.seat, plan: seat.layer.seat.plan }, spec.seat.play, project.ruler)
      : null;
  if (loose) issues.push(...spelled(seatJams(loose, project.ruler), project, path));
  const whole = loose ? { ...fit, seat: loose } : fit;
  return { spec, made: { solid, layers: marked, seat: seat.layer, fit: whole }, issues };
}

function makeSeatLayer(
  { seat }: RoofSpec,
  { stock }: Project,
  { inside, layers }: { readonly inside: Solid; readonly layers: readonly MadeLayer[] },
  wallTop: number | null,
): { readonly layer: SeatLayer | null; readonly issues: readonly Issue[] } {
  const [host] = layers;
  if (!seat || !host) return { layer: null, issues: [] };
  const paper = stock.find(({ id }) => id === seat.layer.stock[0]) as Stock;
  const thickness = countedThickness(seat.layer, paper);
  const firstMark = layers.reduce((sum, { net }) => sum + net.seams.length, 0);
  const made = makeSeat(seat, { host, inside, thickness, wallTop, firstMark });
  const issues = made.issues.map((issue) => ({ ...issue, path: issue.path === '' ? 'seat' : issue.path }));
  if (!made.ok) return { layer: null, issues };
  const { solid, net } = made.value;
  return { layer: { spec: seat.layer, thickness, solid, net, seat: made.value }, issues };
}

/** What the sheets of a layer's papers have room for. */
export const sheetRooms = ({ stock }: Project, layer: Pick<LayerSpec, 'stock'>): readonly SheetRoom[] =>
  stock
    .filter(({ id }) => layer.stock.includes(id))
    .map(({ width, height, margin, direction }) => ({
      width: width - 2 * margin,
      height: height - 2 * margin,
      mayLie: direction === 'any',
    }));

/** The net of one layer: cut panel by panel from board, folded from anything thinner. */
function netOf(
  layer: LayerSpec,
  solid: Solid,
  {
    project,
    thickness,
    firstMark,
    effort,
  }: { readonly project: Project; readonly thickness: number; readonly firstMark: number; readonly effort: Effort },
): Result<Net> {
  if (layer.as === 'board') return buildBoard(solid, { thickness, edges: layer.edges ?? 'square', firstMark });
  const sheets = sheetRooms(project, layer);
  const { net, issues } = buildNet(solid, { ...layer, firstMark, sheets, search: { ...effort, seed: project.seed } });
  return succeed(net, issues);
}

/** The solid of a roof: its shape, with the eave outline from the body where an overhang is given, and its fascia. */
export function buildRoof({ kind, shape, body, overhang, fascia }: RoofSpec): Result<Solid> {
  const definition = findKind(kind);
  if (!definition) throw new Error(`no kind ${kind}`);
  const outline: Result<ShapeValues> =
    body && overhang ? definition.outlineFromBody(body, overhang, shape) : succeed({});
  if (!outline.ok) return outline;
  const built = definition.build({ ...outline.value, ...shape }, body);
  if (!built.ok || fascia === null) return built;
  const { room, edges } = fasciaRoom(built.value);
  if (fascia > room - CUT_MM) return fail(fasciaTooHigh(fascia, room, edges));
  const hung = addFascia(built.value, fascia);
  return succeed(hung, hung === built.value ? [...built.issues, noFascia] : built.issues);
}

const noFascia: Issue = {
  level: 'note',
  code: 'no-fascia',
  path: 'fascia',
  message: 'This roof has no free eave that a fascia could hang from.',
  remedy: 'Leave out the fascia, or let the roof stand out from its walls.',
};

/** Issues whose places are on a layer's own solid. */
const onLayer = (issues: readonly Issue[], layer: number): readonly Issue[] =>
  issues.map((issue) => (issue.place ? { ...issue, place: { ...issue.place, layer } } : issue));

/** Issues with their figures spelled out, and their paths from the whole file. */
export function spelled(issues: readonly Issue[], { units }: Project, path: string): Issue[] {
  return issues.map((issue) =>
    spell({ ...issue, path: [path, issue.path].filter((part) => part !== '').join('.') }, (mm) =>
      formatLength(mm, { units }),
    ),
  );
}
