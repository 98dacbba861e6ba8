import { add2, distance2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import type { BoardEdgeCut } from '../net/board-edges.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import { roundToRuler, toDegrees } from '../units/units.ts';
import type { CompassPad } from './compass-pad.ts';
import type { Draft, DraftEdge, DraftPanel } from './draft.ts';
import type { Pad, PadPoint, Stretch } from './pad.ts';
import { circleOf, stations } from './plan-curve.ts';
import { planFan } from './plan-fan.ts';
import { foldUse, nearestMark, type PieceToPlan, placer, planFlaps } from './plan-parts.ts';
import { asSector, planSector } from './plan-sector.ts';
import { applyPose, type Base, isSquare } from './pose.ts';
import type { LineUse } from './set-out.ts';
import * as words from './words.ts';

/** A row of plain pieces beside each other: ticks of all along each edge first, then the lines between them. */
export function planRun(pad: Pad, pieces: readonly PieceToPlan[]): void {
  const from = pieces[0]?.from ?? 'left';
  const corners = pieces.flatMap(({ draft, pose }) => cornersOf(draft).map((p) => ({ at: applyPose(pose, p) })));
  for (const { at } of pad.tick(corners, from, true)) pad.plot(at, from);
  const lines = pieces.flatMap((piece) => {
    const number = (p: Vec2): number => pad.numberAt(placer(pad, piece)(p));
    return piece.draft.panels.flatMap(({ edges }) => edges.map(({ ends: [a, b] }) => [number(a), number(b)] as const));
  });
  for (const run of chains(lines.filter(([a, b]) => !pad.hasLine(a, b)))) pad.join(run, 'cut');
}

/** A piece alone of which nothing sticks out: no flap, hem, fold, curve or line inside. */
export const isPlain = ({ draft: { panels, glue, hasRoundGlue }, base, pose }: PieceToPlan): boolean =>
  panels.length === 1 &&
  base === null &&
  isSquare(pose) &&
  glue.length === 0 &&
  !hasRoundGlue &&
  (panels[0]?.edges ?? []).every(
    ({ path, flaps, teeth, fold }) => path.length === 2 && flaps.length === 0 && !teeth && !fold,
  );

/** What came of a piece: figures worth telling, and its steps after the corners are marked, with those corners. */
export interface Planned {
  readonly notes: readonly string[];
  readonly stretch: Stretch;
}

/** All marks and lines of one piece; where one like it was set out before, in one sentence as far as they are the same. */
export function planPiece(pad: CompassPad, piece: PieceToPlan, before?: Stretch): Planned {
  const { draft, pose } = piece;
  const place = placer(pad, piece);
  const sector = asSector(pad, draft.panels, piece);
  const notes = sector
    ? [planSector(pad, sector, piece)]
    : draft.fan
      ? [planFan(pad, draft.fan, draft.panels, piece)]
      : [];
  const panels = sector ? [] : draft.fan ? draft.panels.map(withoutFolds) : draft.panels;
  const edges = panels.flatMap((panel) => panel.edges);
  const corners = draft.fan ? [] : distinct([...edges.map(({ ends }) => ends[0]), ...draft.glue.flat()]);
  if (!draft.fan) markCorners(pad, piece, corners);
  const from = pad.steps.length;
  const marks = corners.map((p) => pad.numberAt(place(p)));
  for (const edge of edges) if (edge.path.length > 2) planCurve(pad, edge, piece);
  joinEdges(pad, panels, piece);
  const flapped: Stretch[] = [];
  for (const { ends, flaps } of edges) {
    if (flaps.length === 0) continue;
    const line = ends.map((p) => pad.numberAt(place(p))) as [number, number];
    const begin = pad.steps.length;
    planFlaps(pad, flaps, line, { step: draft.step, isMirrored: pose.isMirrored });
    flapped.push({ from: begin, to: pad.steps.length, marks: line });
  }
  for (const [a, b] of draft.glue) pad.join([pad.numberAt(place(a)), pad.numberAt(place(b))], 'glue');
  if (draft.hasRoundGlue) pad.say('Where a round wall or collar meets this piece, hold it on later and draw along it.');
  for (const { cut, ends } of edges) {
    if (cut) sayBlade(pad, cut, words.lineWords(ends.map((p) => pad.numberAt(place(p))) as [number, number]));
  }
  const isAgain = before && pad.fold({ from, to: pad.steps.length, marks }, before);
  if (!isAgain) foldFlaps(pad, flapped);
  return { notes, stretch: { from, to: pad.steps.length, marks } };
}

/** A flap with the measures of one before it, beside another line, is told by that one. */
function foldFlaps(pad: CompassPad, flaps: readonly Stretch[]): void {
  const told: Stretch[] = [];
  let gone = 0;
  for (const { from, to, marks } of flaps) {
    const own = { from: from - gone, to: to - gone, marks };
    if (told.some((like) => pad.fold(own, like))) gone += to - from - 1;
    else told.push(own);
  }
}

/** A fan's folds are drawn with its corners. */
const withoutFolds = (panel: DraftPanel): DraftPanel => ({
  ...panel,
  edges: panel.edges.filter(({ fold }) => fold === null),
});

const distinct = (points: readonly Vec2[]): readonly Vec2[] =>
  points.filter((p, i) => points.findIndex((q) => distance2(p, q) <= NOISE_MM) === i);

const cornersOf = ({ panels }: Draft): readonly Vec2[] =>
  distinct(panels.flatMap(({ edges }) => edges.map(({ ends }) => ends[0])));

/** Ticks on the edges of the strip, and every other corner plotted, square off a line where the piece lies at an angle. */
function markCorners(pad: Pad, piece: PieceToPlan, points: readonly Vec2[]): void {
  const { draft, pose, from, base } = piece;
  if (base) {
    markFrom(pad, piece, base, points);
    return;
  }
  const placed: PadPoint[] = points.map((p) => ({ at: placer(pad, piece)(p) }));
  if (isSquare(pose) && tickAboutMiddle(pad, piece, placed)) return;
  const end = roomMark(pad, piece, placed);
  const away = pad.tick(end ? [...placed, end] : placed, from);
  const paired =
    draft.rounded.isSymmetric && isSquare(pose) && isSameLength(pose.sin, 0) ? plotPairs(pad, piece, away) : [];
  for (const point of away) if (!paired.includes(point)) pad.plot(point.at, from);
}

/** A plain piece on its peak, the same on both sides: its peak, then its base either side of the middle. */
function tickAboutMiddle(pad: Pad, { draft, from }: PieceToPlan, placed: readonly PadPoint[]): boolean {
  const [low, ...more] = placed.filter(({ at }) => pad.edgeAt(at) === 'bottom');
  const high = placed.filter(({ at }) => pad.edgeAt(at) === 'top');
  const [a, b] = high;
  if (!low || more.length > 0 || !a || !b || high.length > 2 || placed.length !== 3) return false;
  if (!draft.rounded.isSymmetric || draft.panels.some(({ edges }) => edges.some(({ flaps }) => flaps.length > 0)))
    return false;
  if (
    high.some(({ at }) => pad.find(at) !== undefined || Math.abs(at[0]) <= NOISE_MM || isSameLength(at[0], pad.width))
  )
    return false;
  pad.tick([low], from);
  pad.tickEither('top', low.at[0], Math.abs(a.at[0] - b.at[0]) / 2, from);
  return true;
}

/** Where a piece with a flap at its far lower corner ends: room for the flap, by its width. */
function roomMark(pad: Pad, { draft, pose, from }: PieceToPlan, placed: readonly PadPoint[]): PadPoint | null {
  const way = from === 'left' ? 1 : -1;
  const low = placed.filter(({ at }) => pad.edgeAt(at) === 'bottom').map(({ at }) => at);
  if (low.length < 2) return null;
  const far = low.reduce((best, p) => (way * p[0] > way * best[0] ? p : best));
  for (const { edges } of draft.panels) {
    for (const { ends, flaps, path } of edges) {
      const depth = Math.max(0, ...flaps.flatMap(({ marks }) => (marks?.marks ?? []).map((p) => p[1] * draft.step)));
      const at: Vec2 = [far[0] + way * depth, 0];
      const isThere = path.length === 2 && ends.some((p) => distance2(applyPose(pose, p), far) <= NOISE_MM);
      const [a, b] = ends.map((p) => applyPose(pose, p)) as [Vec2, Vec2];
      const isLevel = isSameLength(a[1], b[1]);
      if (isThere && !isLevel && depth > 0 && at[0] > NOISE_MM && at[0] < pad.width - NOISE_MM)
        return { at, isShort: true };
    }
  }
  return null;
}

/** From so many pairs on, corners are measured from a middle line that is drawn for them. */
const PAIRS = 3;

/** Corners at one height on both sides of the middle of a piece, off a line drawn up the middle. */
function plotPairs(pad: Pad, { draft, pose, from }: PieceToPlan, away: readonly PadPoint[]): readonly PadPoint[] {
  const half = (draft.rounded.size[0] * draft.step) / 2;
  const [low, high] = [applyPose(pose, [half, 0]), applyPose(pose, [half, draft.rounded.size[1] * draft.step])];
  const middle = low[0];
  const isOnMark = isSameLength(roundToRuler(from === 'left' ? middle : pad.width - middle, pad.ruler).error, 0);
  const pairs = away.flatMap((left) => {
    const right = away.find(
      ({ at }) => isSameLength(at[1], left.at[1]) && isSameLength(at[0] + left.at[0], 2 * middle),
    );
    return right && left.at[0] < middle - NOISE_MM && pad.find(left.at) === undefined ? [[left, right] as const] : [];
  });
  if (!isOnMark || pairs.length < PAIRS) return [];
  const line = middleLine(pad, [low, high], from);
  const start = pad.at(line[0]);
  const isUp = pad.at(line[1])[1] > start[1];
  for (const [left, right] of [...pairs].sort((a, b) => a[0].at[1] - b[0].at[1])) {
    const along = Math.abs(left.at[1] - start[1]);
    const off = (right.at[0] - left.at[0]) / 2;
    pad.square(line, along, isUp ? [off, -off] : [-off, off]);
  }
  return pairs.flat();
}

function middleLine(pad: Pad, [low, high]: readonly [Vec2, Vec2], from: words.End): readonly [number, number] {
  const ends = [low, high].sort((a, b) => a[1] - b[1]);
  for (const { at } of pad.tick(
    ends.map((at) => ({ at })),
    from,
  ))
    pad.plot(at, from);
  const [a, b] = ends.map((at) => pad.numberAt(at)) as [number, number];
  pad.join([a, b], 'pencil');
  return [a, b];
}

/** Corners of a piece at an angle: both ends of one edge by plotting, that edge drawn, all others square off it. */
function markFrom(pad: Pad, { pose }: PieceToPlan, { ends: base, marks }: Base, points: readonly Vec2[]): void {
  const [a, b] = marks.map((at) => {
    for (const point of pad.tick([{ at }], 'left')) pad.plot(point.at, 'left');
    return pad.numberAt(at);
  }) as [number, number];
  pad.join([a, b], 'pencil');
  const way = unit2(sub2(base[1], base[0]));
  for (const p of points) {
    const target = applyPose(pose, p);
    if (pad.find(target) !== undefined) continue;
    const away = sub2(p, base[0]);
    const along = away[0] * way[0] + away[1] * way[1];
    const off = (way[0] * away[1] - way[1] * away[0]) * (pose.isMirrored ? -1 : 1);
    if (!isSameLength(off, 0)) pad.square([a, b], along, [off]);
    else if (along < 0) pad.past([a, b], a, -along);
    else pad.along([a, b], a, [along]);
  }
}

/** A curve between two marks: by compass where it is an arc whose middle lies on the strip, else through plotted points. */
function planCurve(pad: CompassPad, edge: DraftEdge, piece: PieceToPlan): void {
  const { pose, from } = piece;
  const path = edge.path.map((p) => applyPose(pose, p));
  const ends = edge.ends.map(placer(pad, piece)) as [Vec2, Vec2];
  const use = edge.teeth
    ? foldUse(edge.teeth.kind, pose)
    : edge.fold && edge.fold !== 'flat'
      ? foldUse(edge.fold, pose)
      : 'cut';
  const [a, b] = ends.map((p) => pad.numberAt(p)) as [number, number];
  let drawn: readonly Vec2[];
  const found = circleOf(path);
  const centre = found && nearestMark(pad, found, from);
  const isOn = (p: Vec2): boolean => p[0] >= 0 && p[0] <= pad.width && p[1] >= 0 && p[1] <= pad.height;
  if (found && centre && isOn(centre) && distance2(centre, found) <= piece.draft.step) {
    for (const { at } of pad.tick([{ at: centre }], from)) pad.plot(at, from);
    const turn = isClockwise(path, found) ? 'clockwise' : 'counter-clockwise';
    pad.arcTo(pad.numberAt(centre), [a, b], turn, use);
    drawn = pad.lines.at(-1)?.points ?? [];
  } else {
    const kept = stations(edge.path, piece.draft.step / 2).slice(1, -1);
    const between = kept.map((i) => nearestMark(pad, applyPose(pose, markedAt(piece, edge, i)), from));
    for (const { at } of pad.tick(
      between.map((at) => ({ at })),
      from,
    ))
      pad.plot(at, from);
    pad.curve([a, ...between.map((p) => pad.numberAt(p)), b], use);
    drawn = [ends[0], ...between, ends[1]];
  }
  if (!edge.teeth) return;
  const off = edge.teeth.width * (pose.isMirrored ? 1 : -1);
  pad.band([a, b], drawn, off);
  pad.notches([a, b], drawn, { ...edge.teeth, off });
}

/** Where a sample of a curve goes: by the marks of its piece, so that both halves of a piece stay the same. */
function markedAt({ draft: { rounded, step } }: PieceToPlan, edge: DraftEdge, sample: number): Vec2 {
  const p = edge.path[sample] as Vec2;
  return scale2(rounded.marks(add2(p, rounded.origin)), step);
}

function isClockwise(path: readonly Vec2[], centre: Vec2): boolean {
  const [a, b] = [sub2(path[0] as Vec2, centre), sub2(path[1] as Vec2, centre)];
  return a[0] * b[1] - a[1] * b[0] < 0;
}

/** Straight edges: folds and feet of flaps to be scored, each once, and all others to be cut, in runs. */
function joinEdges(pad: Pad, panels: readonly DraftPanel[], piece: PieceToPlan): void {
  const place = placer(pad, piece);
  const number = (p: Vec2): number => pad.numberAt(place(p));
  const straight = panels.flatMap(({ edges }) => edges.filter(({ path }) => path.length === 2));
  const byUse = new Map<LineUse, [number, number][]>();
  for (const { ends, fold, flaps } of straight) {
    const kind = flaps.find(({ marks }) => marks)?.kind ?? fold;
    if (kind === 'flat') continue;
    const use = kind ? foldUse(kind, piece.pose) : 'cut';
    const known = byUse.get(use) ?? [];
    const [a, b] = [number(ends[0]), number(ends[1])];
    // A fold is an edge of both panels.
    if (!known.some((line) => line.includes(a) && line.includes(b))) byUse.set(use, [...known, [a, b]]);
  }
  for (const use of ['valley', 'mountain', 'cut'] as const) {
    pad.joinAll(chains((byUse.get(use) ?? []).filter(([a, b]) => !pad.hasLine(a, b))), use);
  }
}

/** Lines put end to end, each once. */
export function chains(lines: readonly (readonly [number, number])[]): readonly (readonly number[])[] {
  const rest = lines.map(([a, b]) => [a, b] as const);
  const runs: number[][] = [];
  while (rest.length > 0) {
    const [a, b] = rest.shift() as readonly [number, number];
    const run = [a, b];
    for (let isLonger = true; isLonger; ) {
      const [head, tail] = [run[0] as number, run.at(-1) as number];
      const i = rest.findIndex(([p, q]) => [p, q].some((end) => end === tail || end === head));
      isLonger = i >= 0;
      if (!isLonger) continue;
      const [p, q] = rest.splice(i, 1)[0] as readonly [number, number];
      if (p === tail) run.push(q);
      else if (q === tail) run.push(p);
      else run.unshift(p === head ? q : p);
    }
    runs.push(run);
  }
  return runs;
}

function sayBlade(pad: Pad, { lap, bevel }: BoardEdgeCut, line: string): void {
  const tilt = Number(Math.abs(toDegrees(bevel)).toFixed(1));
  if (lap) {
    pad.say(
      `Line ${line}: this board ${lap === 'over' ? 'runs on over the edge of' : 'ends under'} its neighbour; cut it square.`,
    );
  } else if (tilt > 0)
    pad.say(`Line ${line}: tilt the blade ${tilt}° so that the ${bevel > 0 ? 'outside' : 'inside'} is wider.`);
}
