import { distance2, sub2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, ROLL_MM, SNAP_MM } from '../tolerance.ts';
import { roundToRuler, toDegrees } from '../units/units.ts';
import { turnBetween } from './arcs.ts';
import type { CompassPad } from './compass-pad.ts';
import type { DraftEdge, DraftPanel } from './draft.ts';
import { chordSteps } from './plan-curve.ts';
import { compassPoint, foldUse, nearestMark, type PieceToPlan, planFlaps } from './plan-parts.ts';
import { applyPose } from './pose.ts';
import type { LineUse } from './set-out.ts';
import { exact, type Turn } from './words.ts';

/**
 * The panels of a piece as one sector, what a cone or a level slice of one is cut from: they have one apex and go on from each
 * other without a score, and their edges are rays and arcs about it. Null where they are none, or where the strip has no place
 * for the compass.
 */
export function asSector(
  pad: CompassPad,
  panels: readonly DraftPanel[],
  { pose, from }: PieceToPlan,
): DraftPanel | null {
  const apex = panels[0]?.apex;
  if (!apex || panels.some((panel) => !panel.apex || distance2(panel.apex, apex) > ROLL_MM)) return null;
  const all = panels.flatMap(({ edges }) => edges);
  if (all.some(({ fold }) => fold !== null && fold !== 'flat')) return null;
  const edges = joinArcs(inTurn(all.filter(({ fold }) => fold === null)), apex);
  const isRound = edges.every(({ path }) => path.length === 2 || isArc(path, apex));
  const arcs = edges.filter(({ path }) => path.length > 2).length;
  const isSector = isRound && (arcs === 1 || arcs === 2) && edges.length > arcs;
  return isSector && compassPoint(pad, applyPose(pose, apex), from) ? { edges, apex } : null;
}

const isArc = (path: readonly Vec2[], centre: Vec2): boolean => {
  const reach = distance2(path[0] as Vec2, centre);
  return path.every((p) => Math.abs(distance2(p, centre) - reach) <= ROLL_MM);
};

/** Edges in the order in which they go on from each other. */
function inTurn(edges: readonly DraftEdge[]): readonly DraftEdge[] {
  const rest = [...edges];
  const first = rest.findIndex(({ path }) => path.length === 2);
  const ordered = rest.splice(Math.max(0, first), 1);
  while (rest.length > 0) {
    const end = ordered.at(-1)?.path.at(-1) as Vec2;
    const next = rest.findIndex(({ path }) => distance2(path[0] as Vec2, end) <= SNAP_MM);
    ordered.push(...rest.splice(Math.max(0, next), 1));
  }
  return ordered;
}

/** Arcs of one radius in a row as one. */
function joinArcs(edges: readonly DraftEdge[], centre: Vec2): readonly DraftEdge[] {
  const joined: DraftEdge[] = [];
  for (const edge of edges) {
    const last = joined.at(-1);
    const reach = ({ path }: DraftEdge): number => distance2(path[0] as Vec2, centre);
    const goesOn =
      last && last.path.length > 2 && edge.path.length > 2 && Math.abs(reach(last) - reach(edge)) <= ROLL_MM;
    if (!last || !goesOn) joined.push(edge);
    else {
      joined.pop();
      joined.push({
        ...last,
        path: [...last.path, ...edge.path.slice(1)],
        ends: [last.ends[0], edge.ends[1]],
        teeth: last.teeth ?? edge.teeth,
      });
    }
  }
  return joined;
}

interface Arc {
  readonly edge: DraftEdge;
  readonly radius: number;
}

/**
 * Sets out a sector by compass: its centre and the direction of one ray plotted, the arc drawn, its other end found by chords.
 * Returns its figures: the development of a cone of slant s and radius r is a sector of radius s and 360° r / s.
 */
export function planSector(pad: CompassPad, panel: DraftPanel, piece: PieceToPlan): string {
  const { draft, pose, from } = piece;
  const apex = panel.apex as Vec2;
  const arcs = panel.edges
    .filter(({ path }) => path.length > 2)
    .map((edge): Arc => ({ edge, radius: distance2(edge.path[0] as Vec2, apex) }))
    .sort((a, b) => b.radius - a.radius);
  const [outer, inner] = arcs as [Arc, Arc | undefined];
  const mark = (mm: number): number => Math.max(1, roundToRuler(mm, pad.ruler).count) * draft.step;
  const [centre, towards] = [apex, outer.edge.path[0] as Vec2].map((p) => {
    const point = compassPoint(pad, applyPose(pose, p), from);
    if (point?.edge) return pad.plotOff(point.at, point.edge, from);
    const at = point?.at ?? nearestMark(pad, applyPose(pose, p), from);
    for (const one of pad.tick([{ at }], from)) pad.plot(one.at, from);
    return pad.numberAt(at);
  }) as [number, number];
  const angle = sweep(outer.edge.path, apex);
  const turn: Turn = pose.isMirrored ? 'clockwise' : 'counter-clockwise';
  const radius = mark(outer.radius);
  const steps = chordSteps(radius, angle, draft.step);
  const ends = pad.sector(
    [centre, towards],
    { radius, chord: steps.chord, times: steps.times, turn },
    arcUse(outer, piece),
  );
  const drawn = [pad.lines.at(-1)?.points ?? []];
  const inside = inner ? pad.between(centre, mark(inner.radius), { turn, lines: ends }, arcUse(inner, piece)) : null;
  drawn.push(pad.lines.at(-1)?.points ?? []);
  // The panel's edges run on from the outer arc's end to its beginning.
  const numberOf = (p: Vec2): number => {
    const near = (q: Vec2 | undefined): boolean => q !== undefined && distance2(p, q) <= SNAP_MM;
    if (near(outer.edge.path[0])) return ends[0];
    if (near(outer.edge.path.at(-1))) return ends[1];
    if (near(inner?.edge.path.at(-1))) return inside?.[0] as number;
    return near(inner?.edge.path[0]) ? (inside?.[1] as number) : centre;
  };
  const rays = panel.edges.filter(({ path }) => path.length === 2);
  for (const { path, flaps } of rays) {
    const line = [numberOf(path[0] as Vec2), numberOf(path[1] as Vec2)] as const;
    const kind = flaps.find(({ marks }) => marks)?.kind;
    pad.join(line, kind ? foldUse(kind, pose) : 'cut');
    planFlaps(pad, flaps, line, { step: draft.step, isMirrored: pose.isMirrored });
  }
  arcs.forEach(({ edge: { teeth }, radius: own }, i) => {
    if (!teeth) return;
    const away = i === 0 ? teeth.width : -teeth.width;
    if (!isPositive(mark(own) + away)) return;
    pad.between(centre, mark(own) + away, { turn, lines: ends }, 'cut');
    const off = turn === 'clockwise' ? away : -away;
    pad.notches(i === 0 ? ends : (inside ?? ends), drawn[i] ?? [], { ...teeth, off });
  });
  const shown = (mm: number): string => exact(mm, pad.ruler);
  const radii = inner ? `${shown(outer.radius)} and ${shown(inner.radius)}` : shown(outer.radius);
  return `A sector of ${toDegrees(angle).toFixed(1)}°, radius ${radii}; by these marks ${toDegrees(steps.angle).toFixed(1)}°.`;
}

const arcUse = ({ edge }: Arc, { pose }: PieceToPlan): LineUse => (edge.teeth ? foldUse(edge.teeth.kind, pose) : 'cut');

/** Angle that a curve goes round a centre, radians: counter-clockwise, as panels do. */
function sweep(path: readonly Vec2[], centre: Vec2): number {
  const directions = path.map((p) => {
    const [x, y] = sub2(p, centre);
    return Math.atan2(y, x);
  });
  return directions.slice(1).reduce((sum, b, i) => {
    const by = turnBetween(directions[i] as number, b, false);
    return sum + (by > Math.PI ? by - 2 * Math.PI : by);
  }, 0);
}
