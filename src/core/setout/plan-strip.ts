import { hungCorners } from '../fit/fan.ts';
import { areApart, type Box, boxOf, distanceToSegment } from '../geometry/polygon.ts';
import { cross2, distance2, dot2, length2, sub2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, isSameLength, NOISE_MM } from '../tolerance.ts';
import { type Ruler, roundToRuler } from '../units/units.ts';
import { CompassPad } from './compass-pad.ts';
import type { Draft, DraftPanel } from './draft.ts';
import type { LaidRow, RowPiece } from './lay-row.ts';
import { lettersOf } from './letters.ts';
import type { SheetItem } from './make-set-out.ts';
import type { Stretch } from './pad.ts';
import { type PieceToPlan, placer } from './plan-parts.ts';
import { isPlain, planPiece, planRun } from './plan-piece.ts';
import { applyPose, type Pose, poseBetween } from './pose.ts';
import { isSameDraft } from './same-draft.ts';
import type { LineUse, SetOutLine, SetOutMark, SetOutPart, SetOutPiece, SetOutStrip } from './set-out.ts';
import type { WholeTemplate } from './whole-template.ts';
import { acrossSentence, type End, HOLES, JOIN_HOLES, listed, plain, takeSentence } from './words.ts';

export interface StripSize {
  readonly width: number;
  readonly height: number;
  readonly ruler: Ruler;
  /** It is a piece by itself, to be traced from. */
  readonly isTemplate?: boolean;
}

/**
 * All steps of one strip: pieces in their order from the end they are measured from, then those that are traced from a template,
 * then scoring, then cutting.
 */
export function planStrip(
  { pieces }: Pick<LaidRow<SheetItem>, 'pieces'>,
  { width, height, ruler, isTemplate = false }: StripSize,
): SetOutStrip {
  const pad = new CompassPad(width, height, ruler, isTemplate);
  const notes: string[] = [];
  const known: { readonly plan: PieceToPlan; readonly stretch: Stretch }[] = [];
  const parts: SetOutPart[] = [];
  const laidOn = new Map<RowPiece<SheetItem>, readonly [number, number]>();
  const numbersOf = (own: readonly RowPiece<SheetItem>[]): readonly number[] => own.map((one) => pieces.indexOf(one));
  for (const group of groupsOf(pieces.filter(({ item }) => item.template === null))) {
    const from = pad.steps.length;
    const plans = group.map(toPlan);
    if (plans.length > 1) planRun(pad, plans);
    const titles = [...new Set(group.map(({ item }) => item.title))];
    for (const plan of plans.length > 1 ? [] : plans) {
      const like = known.find(({ plan: other }) => isAlike(plan, other));
      const { notes: own, stretch } = planPiece(pad, plan, like?.stretch);
      notes.push(...own.map((note) => (pieces.length === 1 ? note : `${listed(titles)}. ${note}`)));
      if (!like) known.push({ plan, stretch });
    }
    if (pad.steps.length > from)
      parts.push({ title: listed(titles), from, to: pad.steps.length, pieces: numbersOf(group), isTraced: false });
  }
  for (const template of new Set(pieces.flatMap(({ item }) => item.template ?? []))) {
    const own = pieces.filter(({ item }) => item.template === template);
    const { part, laid } = planTraced(pad, template, own);
    parts.push({ ...part, pieces: numbersOf(own) });
    for (const [i, piece] of own.entries()) laidOn.set(piece, laid[i] as readonly [number, number]);
  }
  const uses = new Set(pad.lines.map(({ use }) => use));
  if (isTemplate && ['mountain', 'valley', 'glue'].some((use) => uses.has(use as LineUse))) pad.say(HOLES);
  else if (uses.has('mountain') || uses.has('valley')) pad.say('Score every line to score.');
  if (!isTemplate) sayAcross(pad, pieces[0]?.from ?? 'left');
  pad.say(uses.has('cut') ? 'Cut along every line to cut.' : 'The strip is the piece: nothing is left to cut.');
  const strip = { width, height };
  return {
    title: '',
    width,
    height,
    times: 1,
    marks: pad.marks,
    lines: pad.lines,
    steps: pad.steps.map((step) => ({ ...step, text: plain(step.text) })),
    parts,
    notes: [...new Set(notes)],
    pieces: pieces.map((piece) =>
      placedPiece(piece, { numberOf: numbersIn(pad, piece), laid: laidOn.get(piece) ?? null }, pad.lines, strip),
    ),
  };
}

/** Upright lines to cut from edge to edge of the strip, by their marks from one end: the stop of a trimmer. */
function sayAcross(pad: CompassPad, from: End): void {
  const upright = pad.lines.flatMap(({ use, points }) =>
    points.slice(1).flatMap((q, i) => {
      const p = points[i] as Vec2;
      const isAcross = isSameLength(p[0], q[0]) && isSameLength(Math.abs(p[1] - q[1]), pad.height);
      return use === 'cut' && isAcross ? [from === 'left' ? p[0] : pad.width - p[0]] : [];
    }),
  );
  const stops = upright
    .filter((x) => isPositive(x) && isPositive(pad.width - x) && isSameLength(roundToRuler(x, pad.ruler).error, 0))
    .sort((a, b) => a - b);
  const apart = stops.filter((x, i) => i === 0 || !isSameLength(x, stops[i - 1] as number));
  if (apart.length > 0) {
    pad.say(
      acrossSentence(
        apart.map((x) => pad.figure(x)),
        from,
      ),
    );
  }
}

/** Pieces that are traced: of each the two marks that the template is laid on, and its lines. */
function planTraced(
  pad: CompassPad,
  template: WholeTemplate,
  pieces: readonly RowPiece[],
): { readonly part: Omit<SetOutPart, 'pieces'>; readonly laid: readonly (readonly [number, number])[] } {
  const from = pad.steps.length;
  const known = template.marks.map((number) => (template.strip.marks[number - 1] as SetOutMark).at) as [Vec2, Vec2];
  pad.say(takeSentence(template.name));
  const all = pieces.map(({ pose, base, from: end }) => {
    const places = base?.marks ?? (template.hold.map((p) => applyPose(pose, p)) as [Vec2, Vec2]);
    const laid = places.map((at) => {
      for (const point of pad.tick([{ at }], end)) pad.plot(point.at, end);
      return pad.numberAt(at);
    }) as [number, number];
    const motion = poseBetween(false, known, places);
    pad.trace(template, laid, (p) => applyPose(motion, p));
    return laid;
  });
  if (template.hasHoles) pad.say(JOIN_HOLES);
  const times = pieces.length === 1 ? 'once' : `${pieces.length} times`;
  const title = `${template.name}: ${times}, from its template`;
  return { part: { title, from, to: pad.steps.length, isTraced: true }, laid: all };
}

const toPlan = ({ item: { draft }, pose, from, base }: RowPiece<SheetItem>): PieceToPlan => ({
  draft,
  pose,
  from,
  base,
});

/** Pieces of one shape with the same flaps, lying the same way. */
const isAlike = (a: PieceToPlan, b: PieceToPlan): boolean =>
  a.from === b.from &&
  !a.base &&
  !b.base &&
  a.pose.cos === b.pose.cos &&
  a.pose.sin === b.pose.sin &&
  isSameDraft(a.draft, b.draft);

/** Plain pieces next to each other are set out together, all others one by one. */
function groupsOf(pieces: readonly RowPiece<SheetItem>[]): readonly (readonly RowPiece<SheetItem>[])[] {
  const groups: RowPiece<SheetItem>[][] = [];
  for (const piece of pieces) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    const joins =
      before && isPlain(toPlan(before)) && isPlain(toPlan(piece)) && before.from === piece.from && touch(before, piece);
    if (last && joins) last.push(piece);
    else groups.push([piece]);
  }
  return groups;
}

/** Whether two pieces have a corner in common. */
const touch = (a: RowPiece, b: RowPiece): boolean => {
  const corners = ({ item, pose }: RowPiece): readonly Vec2[] =>
    item.draft.panels.flatMap(({ edges }) => edges.map(({ ends }) => applyPose(pose, ends[0])));
  return corners(a).some(([x, y]) => corners(b).some((q) => isSameLength(x, q[0]) && isSameLength(y, q[1])));
};

/** The number of the mark at a corner of a piece; of one that is traced, the number that its template has there. */
function numbersIn(pad: CompassPad, piece: RowPiece<SheetItem>): (corner: Vec2) => number | undefined {
  const { template } = piece.item;
  const place = placer(pad, toPlan(piece));
  return template
    ? (p) => template.strip.marks.find(({ at }) => distance2(at, applyPose(template.pose, p)) <= NOISE_MM)?.number
    : (p) => pad.find(place(p));
}

function placedPiece(
  piece: RowPiece<SheetItem>,
  { numberOf, laid }: { readonly numberOf: (corner: Vec2) => number | undefined; readonly laid: SetOutPiece['laid'] },
  lines: readonly SetOutLine[],
  strip: { readonly width: number; readonly height: number },
): SetOutPiece {
  const { item, pose } = piece;
  const { draft, placement, title } = item;
  const rel = (p: Vec2): Vec2 => applyPose(pose, sub2(p, draft.rounded.origin));
  return {
    ...placement,
    title,
    outline: draft.piece.outline.map(rel),
    ...withSpread(draft, farthestOff(draft.panels, pose, { lines, strip })),
    letters: lettersOf(piece, numberOf),
    laid,
  };
}

const NEAR_MM = 3;

/** How far the true edges of a piece's panels, and of its flaps, are from what is drawn, mm. */
function farthestOff(
  panels: readonly DraftPanel[],
  pose: Pose,
  drawn: { readonly lines: readonly SetOutLine[]; readonly strip: { readonly width: number; readonly height: number } },
): { readonly off: number; readonly flapOff: number } {
  const { width, height } = drawn.strip;
  const border: readonly Vec2[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
    [0, 0],
  ];
  const work = drawn.lines.filter(({ use }) => use !== 'pencil' && use !== 'glue');
  const all = [border, ...work.map(({ points }) => points)].map((points) => ({ points, box: boxOf(points) }));
  const edges = panels.flatMap((panel) => panel.edges);
  const own = boxOf(
    edges
      .flatMap(({ path, flaps }) => [...path, ...flaps.flatMap(({ polygon }) => polygon)])
      .map((p) => applyPose(pose, p)),
  );
  // Lines beyond a little way from the piece are looked at only where there is none nearer.
  const near = all.filter(({ box }) => areApart(box, own, NEAR_MM) === false);
  const least = (at: Vec2, paths: typeof all): number =>
    // A line whose box lies farther off than another line need not be looked at.
    paths.reduce(
      (nearest, { points: path, box }) =>
        distanceToBox(at, box) < nearest ? Math.min(nearest, distanceToPath(at, path)) : nearest,
      Number.POSITIVE_INFINITY,
    );
  const farthest = (points: readonly Vec2[]): number =>
    points.reduce((most, p) => {
      const at = applyPose(pose, p);
      const found = least(at, near);
      return Math.max(most, found <= NEAR_MM ? found : least(at, all));
    }, 0);
  return {
    off: farthest(edges.flatMap(({ path, fold }) => (fold === 'flat' ? [] : path))),
    flapOff: farthest(edges.flatMap(({ flaps }) => flaps.flatMap(({ polygon }) => polygon))),
  };
}

/** Of a fan each slope by itself, and the rest of what its edges are off as what its slopes add up to. */
function withSpread(
  { fan, rounded }: Draft,
  found: ReturnType<typeof farthestOff>,
): ReturnType<typeof farthestOff> & Pick<SetOutPiece, 'spread'> {
  if (!fan || !rounded.fan) return { ...found, spread: 0 };
  const { apex, rim } = rounded.fan;
  const off = rim.slice(1).reduce((most, q, i) => {
    const [truly, marked] = [
      halfTriangle(apex, [rim[i] as Vec2, q]),
      halfTriangle(fan.apex, [fan.rim[i] as Vec2, fan.rim[i + 1] as Vec2]),
    ];
    return Math.max(most, distance2(truly[0], marked[0]), distance2(truly[1], marked[1]));
  }, 0);
  // Between many narrow slopes a true corner is near some line or other: corners are held against their own.
  const truly = [apex, ...rim, ...hungCorners(rounded.fan)].map((p) => sub2(p, rounded.origin));
  const marked = [fan.apex, ...fan.rim, ...hungCorners(fan)];
  const astray = Math.max(found.off, ...truly.map((p, i) => distance2(p, marked[i] as Vec2)));
  return { ...found, off, spread: Math.max(0, astray - off) };
}

/** The corners of a slope's foot, its peak at the origin and its middle along x. */
function halfTriangle(peak: Vec2, [a, b]: readonly [Vec2, Vec2]): readonly [Vec2, Vec2] {
  const [u, v] = [sub2(a, peak), sub2(b, peak)];
  const half = Math.atan2(cross2(u, v), dot2(u, v)) / 2;
  const corner = (reach: number, angle: number): Vec2 => [reach * Math.cos(angle), reach * Math.sin(angle)];
  return [corner(length2(u), -half), corner(length2(v), half)];
}

const distanceToBox = ([x, y]: Vec2, { minX, minY, maxX, maxY }: Box): number =>
  Math.hypot(Math.max(0, minX - x, x - maxX), Math.max(0, minY - y, y - maxY));

function distanceToPath(p: Vec2, path: readonly Vec2[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < path.length; i++)
    least = Math.min(least, distanceToSegment(p, path[i - 1] as Vec2, path[i] as Vec2));
  return least;
}
