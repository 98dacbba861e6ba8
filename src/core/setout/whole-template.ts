import { boxOf } from '../geometry/polygon.ts';
import { add2, distance2, type Vec2 } from '../geometry/vector.ts';
import { isPositive, NOISE_MM } from '../tolerance.ts';
import type { Ruler } from '../units/units.ts';
import type { Draft } from './draft.ts';
import { flapDepth, layRow } from './lay-row.ts';
import type { SheetItem } from './make-set-out.ts';
import { planStrip } from './plan-strip.ts';
import { applyPose, isSquare, type Pose } from './pose.ts';
import { isSameDraft } from './same-draft.ts';
import type { SetOutStrip } from './set-out.ts';
import { measuresIn, withoutLetters } from './template.ts';

/** A piece with its flaps, set out once by itself, that all like it on a sheet are traced from. */
export interface WholeTemplate {
  /** What the steps call it. */
  readonly name: string;
  readonly strip: SetOutStrip;
  /** How the piece lies on it. */
  readonly pose: Pose;
  readonly times: number;
  /** Two of its corners that it is laid by, on their marks, mm from the origin of its piece. */
  readonly hold: readonly [Vec2, Vec2];
  /** Their true places in the frame of the piece. */
  readonly at: readonly [Vec2, Vec2];
  /** Their numbers on its own strip. */
  readonly marks: readonly [number, number];
  /** Lines inside it are pricked through. */
  readonly hasHoles: boolean;
  readonly measures: readonly [withIt: number, withoutIt: number];
}

/** Tracing is worth its template where it takes no more than this share of the steps. */
const WORTH = 0.6;

/** Steps that trace a piece: two marks, and round the template. */
const TRACED = 3;

/** Templates of the pieces that come several times on a sheet and take many measures each; a template for each such piece. */
export function wholeTemplates(items: readonly SheetItem[], ruler: Ruler): ReadonlyMap<SheetItem, WholeTemplate> {
  const groups: SheetItem[][] = [];
  for (const item of items) {
    if (!isTraceable(item.draft)) continue;
    const like = groups.find(
      ([first]) => first && first.pose.isMirrored === item.pose.isMirrored && isSameDraft(first.draft, item.draft),
    );
    if (like) like.push(item);
    else groups.push([item]);
  }
  const found = new Map<SheetItem, WholeTemplate>();
  const names = new Set<string>();
  for (const own of groups) {
    const [first] = own;
    if (!first || own.length < 2) continue;
    const name = freeName(first.title, names);
    const template = wholeTemplate(first, { name, times: own.length, ruler });
    if (template === null || !isLessWork(template, own)) continue;
    names.add(name);
    for (const item of own) found.set(item, template);
  }
  return found;
}

/** What is rolled or toothed takes few measures by compass, and its arcs are not pricked through. */
const isTraceable = ({ panels, piece }: Draft): boolean =>
  !piece.strip && panels.every(({ apex, edges }) => apex === null && edges.every(({ path }) => path.length === 2));

function freeName(title: string, taken: ReadonlySet<string>): string {
  let name = title;
  for (let n = 2; taken.has(name); n++) name = `${title} (${n})`;
  return name;
}

function wholeTemplate(
  item: SheetItem,
  { name, times, ruler }: { readonly name: string; readonly times: number; readonly ruler: Ruler },
): WholeTemplate | null {
  const { draft, pose } = item;
  const { hold, at } = holdOf(draft);
  if (!isPositive(distance2(...hold))) return null;
  const { step } = draft;
  const upright: Pose = { isMirrored: pose.isMirrored, cos: 1, sin: 0, move: [0, 0] };
  const box = boxOf(draft.rings.flat().map((p) => applyPose(upright, p)));
  const ceil = (mm: number): number => Math.ceil((mm - NOISE_MM) / step) * step;
  // A fan comes on marks near by; a flap at the beginning has its room told by its depth.
  const air = draft.fan ? 2 * step : 0;
  const lead = ceil(Math.max(-box.minX, isPositive(-box.minX) ? flapDepth(draft) : 0)) + air;
  const laid: Pose = { ...upright, move: [lead, ceil(-box.minY) + air] };
  const width = lead + ceil(box.maxX) + (lead > step ? 2 * step : 0);
  const outline = draft.rings.flat().map((p) => applyPose(laid, p));
  const row = layRow([{ ...item, pose: laid, outline, template: null, hold: null }], width, step);
  const [own] = row.pieces;
  if (!own || row.crowded.length > 0) return null;
  const planned = planStrip(row, { width, height: row.height, ruler, isTemplate: true });
  const marks = hold.map(
    (p) => planned.marks.find(({ at }) => distance2(at, applyPose(own.pose, p)) <= NOISE_MM)?.number ?? 0,
  );
  if (marks.includes(0)) return null;
  const measures = measuresIn(planned);
  return {
    name,
    strip: { ...withoutLetters(planned), title: `Template of ${name}` },
    pose: own.pose,
    times,
    hold,
    at,
    marks: marks as [number, number],
    hasHoles: planned.lines.some(({ use }) => use !== 'cut' && use !== 'pencil'),
    measures: [measures + times * TRACED, times * measures],
  };
}

/** Pieces that lie the same way are done again in few steps: their corners are marked, and the rest is told in one sentence. */
function isLessWork({ strip }: WholeTemplate, items: readonly SheetItem[]): boolean {
  const ways = new Set(
    items.map(({ pose }, i) => (isSquare(pose) ? `${Math.round(pose.cos)} ${Math.round(pose.sin)}` : `${i}`)),
  );
  const corners = (items[0]?.draft.panels ?? []).reduce((sum, { edges }) => sum + edges.length, 0);
  const told = strip.steps.length;
  const withIt = told + items.length * TRACED;
  const withoutIt = ways.size * told + (items.length - ways.size) * (1 + corners / 2);
  return withIt <= WORTH * withoutIt;
}

/** The apex and the first ray of a fan; else the two corners farthest apart. */
function holdOf({ fan, panels, rounded }: Draft): Pick<WholeTemplate, 'hold' | 'at'> {
  if (fan && rounded.fan) {
    return { hold: [fan.apex, fan.rim[0] as Vec2], at: [rounded.fan.apex, rounded.fan.rim[0] as Vec2] };
  }
  const corners = panels.flatMap(({ edges }) =>
    edges.map(({ ends, path }) => ({ marked: ends[0], truly: add2(path[0] as Vec2, rounded.origin) })),
  );
  let [a, b] = [corners[0], corners[0]] as [(typeof corners)[number], (typeof corners)[number]];
  corners.forEach((p, i) => {
    for (const q of corners.slice(i + 1)) {
      if (distance2(p.marked, q.marked) > distance2(a.marked, b.marked) + NOISE_MM) [a, b] = [p, q];
    }
  });
  return { hold: [a.marked, b.marked], at: [a.truly, b.truly] };
}
