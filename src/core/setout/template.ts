import { boxOf } from '../geometry/polygon.ts';
import type { PieceKey } from '../layout/layout.ts';
import { SNAP_MM } from '../tolerance.ts';
import type { Ruler } from '../units/units.ts';
import { type Draft, ringsOf } from './draft.ts';
import { layRow } from './lay-row.ts';
import type { SheetItem } from './make-set-out.ts';
import { planStrip } from './plan-strip.ts';
import { applyPose } from './pose.ts';
import type { SetOutPiece, SetOutStrip, TraceTemplate } from './set-out.ts';

/** Tracing once takes as long as so many measures. */
const TRACE = 3;

/** Numbers in a step that a ruler is read for. */
export const measuresIn = ({ steps }: Pick<SetOutStrip, 'steps'>): number =>
  steps.reduce((sum, { marks }) => sum + marks.length, 0);

/** Measures of some pieces where they are set out: of a part with others their share of it. */
function measuresOf(items: readonly SheetItem[], strips: readonly SetOutStrip[]): number {
  const own = new Set(items.map(({ placement }) => keyOf(placement)));
  const shares = strips.flatMap((strip) =>
    strip.parts.map(({ from, to, pieces }) => {
      const among = pieces.filter((p) => own.has(keyOf(strip.pieces[p] as SetOutPiece))).length;
      return (measuresIn({ steps: strip.steps.slice(from, to) }) * among) / Math.max(1, pieces.length);
    }),
  );
  return Math.round(shares.reduce((sum, share) => sum + share, 0));
}

const keyOf = ({ roof, layer, piece, copy }: PieceKey): string => `${roof}/${layer}/${piece}/${copy}`;

/**
 * Pieces that come several times on a sheet and that take fewer measures to set out once, without flaps, and to trace than to
 * set out each. Flaps are added to each tracing beside its lines.
 */
export function templatesFor(
  items: readonly SheetItem[],
  strips: readonly SetOutStrip[],
  ruler: Ruler,
): readonly TraceTemplate[] {
  const groups = new Map<string, SheetItem[]>();
  for (const item of items) {
    if (item.template) continue;
    const key = shapeKey(item.draft);
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()].flatMap((own): TraceTemplate[] => {
    const [first] = own;
    if (!first || own.length < 2) return [];
    const strip = templateStrip(first, ruler);
    const flaps = first.draft.panels.reduce(
      (sum, { edges }) => sum + edges.reduce((all, { flaps: turned }) => all + turned.length * 4, 0),
      0,
    );
    const without = measuresOf(own, strips);
    const withIt = measuresIn(strip) + own.length * (TRACE + flaps);
    return withIt < without ? [{ strip, hold: null, times: own.length, measures: [withIt, without] }] : [];
  });
}

/** Panels that are the same without turning over. */
const shapeKey = ({ panels, step }: Draft): string =>
  panels
    .map(({ edges }) => edges.map(({ ends: [a] }) => a.map((mm) => Math.round(mm / step)).join()).join(' '))
    .join('|');

/** What is traced several times has other letters each time. */
export const withoutLetters = (strip: SetOutStrip): SetOutStrip => ({
  ...strip,
  pieces: strip.pieces.map((piece) => ({ ...piece, letters: [] })),
});

/** The piece without its flaps, upright on a strip just large enough. */
function templateStrip(item: SheetItem, ruler: Ruler): SetOutStrip {
  const { draft, pose } = item;
  const panels = draft.panels.map((panel) => ({
    ...panel,
    edges: panel.edges.map((edge) => ({ ...edge, flaps: [], teeth: null })),
  }));
  const plain: Draft = { ...draft, panels, rings: ringsOf(panels, draft.step) };
  const [w, h] = draft.rounded.size.map((count) => Math.ceil(count - SNAP_MM) * draft.step) as [number, number];
  const upright = { isMirrored: pose.isMirrored, cos: 1, sin: 0, move: [pose.isMirrored ? w : 0, 0] as const };
  const outline = plain.rings.flat().map((p) => applyPose(upright, p));
  const box = boxOf(outline);
  const width = Math.max(w, Math.ceil(box.maxX / draft.step) * draft.step);
  const row = layRow(
    [{ ...item, draft: plain, pose: upright, outline, template: null, hold: null }],
    width,
    draft.step,
  );
  const strip = planStrip(row, { width, height: Math.max(h, row.height), ruler });
  return { ...withoutLetters(strip), title: `A template of ${item.title}, without its flaps` };
}
