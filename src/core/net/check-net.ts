import { gridOf } from '../geometry/box-grid.ts';
import { type BoxedRing, boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { at, boxOf, distanceToSegment, isInside, ringArea, ringDistance } from '../geometry/polygon.ts';
import { alignSegments, apply2, type Rigid2 } from '../geometry/rigid2.ts';
import { cross2, distance2, distance3, lerp2, sub2, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { FlapSpec } from '../project/project.ts';
import { flattenFace, pointInFace } from '../solid/face-frame.ts';
import { isFootOnFace, measureSolid } from '../solid/measure.ts';
import { edgePath, type Solid } from '../solid/solid.ts';
import { NOISE_MM, NOISE_MM2 } from '../tolerance.ts';
import { checkBoards } from './check-board.ts';
import { checkHems } from './check-hems.ts';
import { type Flap, flapEnds, type Net, type Panel, type Piece, type Seam, type SeamSide } from './net.ts';

/**
 * Proves a net against its solid, by other means than those it was made with. Returns no issue when: every face is one
 * panel of true shape; every edge between two faces is one fold or one seam; a seam has one flap or one strip or asks for tape, or is shorter than any flap; each flap
 * lies inside the panel it is glued to, clear of its other edges and of the other flaps there; hems lie level, clear of each other; flat, nothing overlaps; and
 * the outline encloses panels and flaps and nothing else.
 *
 * `only`: the faces that are cut, where others are parts of another layer.
 *
 * Pieces that a maker could not lose are not told apart from noise: lengths agree within 1e-6 mm.
 */
export function checkNet(
  solid: Solid,
  net: Net,
  spec: FlapSpec,
  only: ReadonlySet<number> = new Set(solid.faces.map((_, f) => f)),
): readonly Issue[] {
  const issues: Issue[] = [];
  const found: Report = (code, message, numbers = {}) =>
    issues.push({ level: 'error', code, path: '', message, numbers });
  checkPanels(solid, net, only, found);
  checkEdges(solid, net, { only, least: spec.least }, found);
  for (const piece of net.pieces) {
    if (!piece.board) checkFlat(piece, spec.clearance, found);
  }
  checkBoards(solid, net, found);
  checkGlued(solid, net, spec, found);
  checkHems(solid, net, spec.clearance, found);
  return issues;
}

type Report = (code: string, message: string, numbers?: Record<string, number>) => void;

function checkPanels(solid: Solid, net: Net, only: ReadonlySet<number>, found: Report): void {
  const count = solid.faces.map(() => 0);
  for (const { face, polygon } of net.pieces.flatMap((piece) => piece.panels)) {
    count[face] = (count[face] ?? 0) + 1;
    const { loop, title, roll } = solid.faces[face] as Solid['faces'][number];
    // What is rolled keeps its lengths along the paper, not straight through space.
    const partner = new Map(roll?.rulings.flatMap(([a, b]) => [[a, b] as const, [b, a] as const]));
    const isMeasured = (i: number, j: number): boolean => !roll || partner.get(i) === j || partner.get(j) === i;
    let off = loop.length === polygon.length ? 0 : Number.POSITIVE_INFINITY;
    loop.forEach((v, i) => {
      for (let j = 0; j < i; j++) {
        if (!isMeasured(i, j)) continue;
        const true3 = distance3(solid.vertices[v] as Vec3, solid.vertices[loop[j] as number] as Vec3);
        off = Math.max(off, Math.abs(true3 - distance2(at(polygon, i), at(polygon, j))));
      }
      // Between rulings the paper is longer than the chord, by less than the samples keep to the curve.
      const chord = distance3(solid.vertices[v] as Vec3, solid.vertices[at(loop, i + 1)] as Vec3);
      const excess = distance2(at(polygon, i), at(polygon, i + 1)) - chord;
      if (roll && Math.abs(excess) > roll.deviation) off = Math.max(off, Math.abs(excess));
    });
    if (!(off <= NOISE_MM)) found('panel-untrue', `The panel ${title} is not the true size of its face.`, { off });
    // Distances alone would let a mirror image pass.
    const area = measureSolid(solid).faces[face]?.area ?? 0;
    if (!(Math.abs(ringArea(polygon) - area) <= NOISE_MM * Math.max(1, area))) {
      found('panel-mirrored', `The panel ${title} is turned over or has the wrong area.`, { area });
    }
  }
  count.forEach((times, face) => {
    if (times !== (only.has(face) ? 1 : 0))
      found('panel-count', `The face ${solid.faces[face]?.title} is not there once.`, { timesCount: times });
  });
}

function checkEdges(
  solid: Solid,
  net: Net,
  { only, least }: { readonly only: ReadonlySet<number>; readonly least: number },
  found: Report,
): void {
  const folds = byEdge(net.pieces.flatMap((piece) => piece.folds));
  const flaps = byEdge(net.pieces.flatMap((piece) => (piece.strip ? [] : piece.flaps)));
  const seams = byEdge(net.seams);
  const stripsAt = byEdge(
    net.pieces.flatMap(({ strip, flaps: halves }) => (strip ? [{ edge: strip.edge, halves }] : [])),
  );
  solid.edges.forEach((edge, e) => {
    const joins = folds(e).length + seams(e).length;
    const isOwn = edge.faces.some((face) => only.has(face));
    if (joins !== (edge.faces.length === 2 && isOwn ? 1 : 0)) {
      found('edge-joins', `The edge ${edge.id} is joined the wrong number of times.`, { joinsCount: joins });
    }
    const [seam] = seams(e);
    const carried = flaps(e).length;
    // Round a curve there are as many teeth as it takes.
    if (seam?.join === 'flap' ? carried < 1 || (carried > 1 && !edge.via) : carried > 0) {
      found('flap-count', `The seam ${edge.id} has the wrong number of flaps.`, { flapsCount: carried });
    }
    if (seam?.join === 'none' && edge.length >= least)
      found('seam-loose', `Nothing joins the seam ${edge.id}.`, { length: edge.length });
    const strips = stripsAt(e);
    const halves = strips.flatMap((strip) => strip.halves.map((flap) => flap.to));
    if (halves.join() !== (seam?.join === 'strip' ? edge.faces.join() : '')) {
      found('strip-count', `The seam ${edge.id} has the wrong number of strips.`, { stripsCount: strips.length });
    }
  });
  if (new Set(net.seams.map((seam) => seam.mark)).size !== net.seams.length) {
    found('mark-twice', 'Two seams carry the same match mark.');
  }
}

function checkFlat(piece: Piece, clearance: number, found: Report): void {
  const parts = [...piece.panels, ...piece.flaps, ...piece.hems].map((part) => part.polygon);
  const boxed = parts.map(boxedRing);
  const grid = gridOf(boxed.map(({ box }) => box));
  boxed.forEach((a, i) => {
    for (const j of grid.near(a.box)) {
      const depth = j < i ? ringDepth(a, boxed[j] as BoxedRing) : 0;
      if (depth > NOISE_MM) found('flat-overlap', `Parts of the piece ${piece.title} cover each other.`, { depth });
    }
  });
  const panelGrid = gridOf(piece.panels.map(({ polygon }) => boxOf(polygon)));
  for (const flap of [...piece.flaps, ...piece.hems]) {
    for (const panel of panelGrid.near(boxOf(flap.polygon), clearance)) {
      const { polygon } = piece.panels[panel] as Panel;
      const gap = panel === flap.panel ? clearance : ringDistance(flap.polygon, polygon);
      if (gap < clearance - NOISE_MM)
        found('flap-near-panel', `A flap or hem of ${piece.title} lies too near a panel.`, { gap });
    }
  }
  const inside = parts.reduce((sum, part) => sum + ringArea(part), 0);
  const off = Math.abs(ringArea(piece.outline) - inside);
  if (!(off <= NOISE_MM2 * Math.max(1, inside))) {
    found('outline-area', `The outline of ${piece.title} does not enclose its panels and flaps.`, { off });
  }
  const box = boxOf(piece.outline);
  const corner = Math.max(
    Math.abs(box.minX),
    Math.abs(box.minY),
    Math.abs(box.maxX - piece.width),
    Math.abs(box.maxY - piece.height),
  );
  if (!(corner <= NOISE_MM)) found('piece-frame', `The piece ${piece.title} does not start at its corner.`, { corner });
}

function checkGlued(solid: Solid, net: Net, spec: FlapSpec, found: Report): void {
  const seams = byEdge(net.seams);
  const glued = net.pieces.flatMap((piece, p) =>
    piece.flaps.map((flap) => underMate(solid, net, { flap, seam: seams(flap.edge)[0] as Seam, piece: p })),
  );
  for (const { flap, seamEnds, mate, onSeam, polygon } of glued) {
    const name = solid.edges[flap.edge]?.id;
    for (const p of polygon) {
      const away = distanceToLine(p, seamEnds);
      if (away > spec.width + NOISE_MM) found('flap-wide', `The flap at ${name} is wider than asked.`, { away });
      if (!isInside(p, mate) && ringDistance([p], mate) > NOISE_MM) {
        found('flap-outside', `The flap at ${name} shows beyond its panel.`, { away });
      }
    }
    mate.forEach((a, i) => {
      const b = at(mate, i + 1);
      if (onSeam.has(i)) return;
      if (isInside(a, polygon) && ringDistance([a], polygon) > NOISE_MM) {
        found('flap-outside', `The flap at ${name} covers a corner of its panel.`);
      }
      if (distanceToLine(a, seamEnds) <= NOISE_MM && distanceToLine(b, seamEnds) <= NOISE_MM) return;
      const gap = ringDistance(polygon, [a, b]);
      if (gap < spec.clearance - NOISE_MM)
        found('flap-near-edge', `The flap at ${name} lies too near an edge.`, { gap });
    });
    const reach = Math.max(...polygon.map((p) => distanceToLine(p, seamEnds)));
    if (reach < spec.least - NOISE_MM) found('flap-useless', `The flap at ${name} is too narrow to glue.`, { reach });
    if (Math.max(...polygon.slice(0, 2).map((p) => distanceToSegment(p, ...seamEnds))) > NOISE_MM) {
      found('flap-off-seam', `The flap at ${name} does not start on its seam.`);
    }
  }
  const byMate = new Map<number, Glued[]>();
  for (const a of glued) {
    const others = byMate.get(a.flap.to) ?? [];
    byMate.set(a.flap.to, others);
    for (const b of others) {
      const gap =
        ringDepth(boxedRing(a.polygon), boxedRing(b.polygon)) > NOISE_MM ? -1 : ringDistance(a.polygon, b.polygon);
      // The teeth of one seam touch where their bases meet.
      const least = a.flap.edge === b.flap.edge ? 0 : spec.clearance;
      if (gap < least - NOISE_MM) found('flaps-meet', 'Two flaps under one panel meet.', { gap });
    }
    others.push(a);
  }
}

/** What lies at each edge, in the order given. */
function byEdge<T extends { readonly edge: number }>(parts: readonly T[]): (edge: number) => readonly T[] {
  const found = new Map<number, T[]>();
  for (const part of parts) {
    const known = found.get(part.edge);
    if (known) known.push(part);
    else found.set(part.edge, [part]);
  }
  return (edge) => found.get(edge) ?? [];
}

interface Glued {
  readonly flap: Flap;
  /** Convex: of a tooth without the bulge of its base. */
  readonly polygon: readonly Vec2[];
  readonly seamEnds: readonly [Vec2, Vec2];
  readonly mate: readonly Vec2[];
  /** Positions in the mate whose edges are parts of a curved seam. */
  readonly onSeam: ReadonlySet<number>;
}

/** A flap where it lies under its mate, in the mate's piece. */
function underMate(
  solid: Solid,
  net: Net,
  { flap, seam, piece }: { readonly flap: Flap; readonly seam: Seam; readonly piece: number },
): Glued {
  const { faces, role, via } = solid.edges[flap.edge] as Solid['edges'][number];
  const own = faces.indexOf(flap.from) as 0 | 1;
  const from = seam.sides[own];
  const to = seam.sides[own === 0 ? 1 : 0];
  const { strip } = net.pieces[piece] as Piece;
  if (from.piece !== piece && !strip)
    throw new Error(`flap at ${solid.edges[flap.edge]?.id} lies in another piece than its seam`);
  const mate = panelOf(solid, net, to).polygon;
  if (via) return toothUnderMate(solid, flap, panelOf(solid, net, from), panelOf(solid, net, to));
  // A wall's edge is drawn on its slope the same way round; across any other seam the two loops run against each other.
  const target = role === 'abutment' ? to.ends : ([to.ends[1], to.ends[0]] as const);
  const motion = strip
    ? stripUnder(strip.line, own, role === 'abutment', to.ends)
    : alignSegments(...from.ends, ...target);
  const polygon = flap.polygon.map((p) => apply2(motion, p));
  const glued = { flap, seamEnds: to.ends, mate, onSeam: new Set<number>() };
  if (own === 1 || !isFootOnFace(solid, flap.edge)) return { ...glued, polygon };
  // The flap of a wall that stands on its mate is folded the other way, to behind the wall.
  const turned = polygon.map((p) => mirrored(p, to.ends)).toReversed();
  return { ...glued, polygon: [...turned.slice(-2), ...turned.slice(0, -2)] };
}

/** Half a strip lies as it is beside its line under the first face; the second face runs along the seam the other way. */
function stripUnder(
  line: readonly [Vec2, Vec2],
  own: 0 | 1,
  isAbutment: boolean,
  there: readonly [Vec2, Vec2],
): Rigid2 {
  const isAlong = own === 1 || isAbutment;
  return alignSegments(...line, ...(isAlong ? there : ([there[1], there[0]] as const)));
}

/** A point on the other side of a line, as far from it. */
function mirrored(p: Vec2, [a, b]: readonly [Vec2, Vec2]): Vec2 {
  const along = unit2(sub2(b, a));
  const aside = cross2(along, sub2(p, a));
  return [p[0] + 2 * aside * along[1], p[1] - 2 * aside * along[0]];
}

/** A panel laid flat; one of another layer in its own frame. */
const panelOf = (solid: Solid, net: Net, { piece, panel }: SeamSide): Panel =>
  piece < 0 ? { face: panel, polygon: flattenFace(solid, panel) } : (net.pieces[piece]?.panels[panel] as Panel);

/** A tooth's base joins two points of the curve, which both panels know by their vertices. */
function toothUnderMate(solid: Solid, flap: Flap, carrier: Panel, mate: Panel): Glued {
  const path = edgePath(solid.edges[flap.edge] as Solid['edges'][number]);
  const loopOf = ({ face }: Panel): readonly number[] => solid.faces[face]?.loop ?? [];
  const flat = flattenFace(solid, mate.face);
  const motion = alignSegments(at(flat, 0), at(flat, 1), at(mate.polygon, 0), at(mate.polygon, 1));
  const [a, b] = flapEnds(flap).map((end): { own: Vec2; there: Vec2 } => {
    const vertex = loopOf(carrier)[carrier.polygon.findIndex((p) => distance2(p, end) <= NOISE_MM)] ?? -1;
    if (!path.includes(vertex)) throw new Error(`a tooth at ${solid.edges[flap.edge]?.id} does not begin on its curve`);
    return { own: end, there: apply2(motion, pointInFace(solid, mate.face, solid.vertices[vertex] as Vec3)) };
  }) as [{ own: Vec2; there: Vec2 }, { own: Vec2; there: Vec2 }];
  // The curve is a little longer flat than its chord under the mate: the tooth is laid on by the middle of its base.
  const onto = alignSegments(lerp2(a.own, b.own, 0.5), b.own, lerp2(a.there, b.there, 0.5), b.there);
  const tips = flap.polygon.slice(flap.base + 1).map((p) => apply2(onto, p));
  // That of a wall that stands on its mate is folded to behind the wall.
  const isBehind = isFootOnFace(solid, flap.edge);
  const polygon = isBehind
    ? [b.there, a.there, ...tips.map((p) => mirrored(p, [a.there, b.there])).toReversed()]
    : [a.there, b.there, ...tips];
  const loop = loopOf(mate);
  return {
    flap,
    seamEnds: [a.there, b.there],
    mate: mate.polygon,
    polygon,
    onSeam: new Set(loop.flatMap((v, i) => (path.includes(v) && path.includes(at(loop, i + 1)) ? [i] : []))),
  };
}

const distanceToLine = (p: Vec2, [a, b]: readonly [Vec2, Vec2]): number =>
  Math.abs(cross2(unit2(sub2(b, a)), sub2(p, a)));
