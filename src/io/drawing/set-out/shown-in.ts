import { type Box, boxOf } from '../../../core/geometry/polygon.ts';
import { distance2 } from '../../../core/geometry/vector.ts';
import type { SetOutLine, SetOutMark, SetOutPart, SetOutStrip } from '../../../core/setout/set-out.ts';
import { SNAP_MM } from '../../../core/tolerance.ts';

/** What the steps of a part draw: their marks, and those of other parts that their lines begin at, with their indices; mm of the strip. */
export function shownIn(
  strip: SetOutStrip,
  { from, to }: SetOutPart,
): {
  readonly own: ReadonlySet<number>;
  readonly shown: readonly { readonly mark: SetOutMark; readonly m: number }[];
  readonly box: Box;
} {
  const steps = strip.steps.slice(from, to);
  const own = new Set(steps.flatMap((step) => step.marks));
  const corners = steps.flatMap((step) => step.lines.flatMap((l) => (strip.lines[l] as SetOutLine).points));
  const shown = strip.marks
    .map((mark, m) => ({ mark, m }))
    .filter(({ mark, m }) => own.has(m) || corners.some((p) => distance2(p, mark.at) <= SNAP_MM));
  return { own, shown, box: boxOf([...corners, ...shown.map(({ mark }) => mark.at)]) };
}
