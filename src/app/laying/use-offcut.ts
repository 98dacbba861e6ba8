import { useState } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Issue } from '../../core/issue.ts';
import { parseLength } from '../../core/units/units.ts';
import { bench, useBench, useStyle } from '../bench.ts';
import { exactText } from '../fields/typed-text.ts';
import { resolveTyped } from '../load-workshop.ts';
import { type Edited, type Rings, sameSides, setSideLength } from '../plan/plan-edits.ts';
import type { PlanAtHand } from '../plan/use-plan.ts';
import { type FilePath, getAt, type Json, type JsonObject, setAt } from '../state/file-path.ts';

/** A drawn outline that the file could not take, until the file changes. */
interface Refused {
  readonly file: JsonObject;
  readonly rings: Rings;
  readonly issues: readonly Issue[];
}

const pointsOf = (typed: Json | undefined): readonly Vec2[] | null => {
  if (!Array.isArray(typed)) return null;
  const points = (typed as readonly Json[]).map((corner): Vec2 => {
    const [x, y] = (Array.isArray(corner) ? corner : []).map((value) => {
      const read = parseLength(value as string | number, { negative: 'allow' });
      return read.ok ? read.value : Number.NaN;
    });
    return [x ?? Number.NaN, y ?? Number.NaN];
  });
  return points.some(([x, y]) => Number.isNaN(x + y)) ? null : points;
};

/** The outline of an offcut as a plan that a hand or the keys can change; null where the file says none that can be read. */
export const useOffcut = (index: number): PlanAtHand | null => {
  const file = useBench((state) => state.file);
  const { units } = useStyle();
  const [last, setLast] = useState<Refused | null>(null);
  const at: FilePath = ['stock', index, 'outline'];
  const typed = getAt(file, at);
  const kept = pointsOf(typed);
  if (kept === null) return null;
  const refused = last?.file === file ? last : null;
  const rings = refused?.rings ?? [kept];

  /** Corners that an edit left alone stay as they were typed. */
  const textOf = ([x, y]: Vec2): Json => {
    const same = kept.findIndex((p) => p[0] === x && p[1] === y);
    return same >= 0 ? (getAt(typed, [same]) ?? null) : [exactText(x, units), exactText(y, units)];
  };
  const edit: PlanAtHand['edit'] = ({ rings: next }, { walk, drag } = {}) => {
    const outline = (next[0] ?? []).map(textOf);
    const candidate = setAt(file, at, outline) as JsonObject;
    const read = resolveTyped(candidate);
    if (read.ok) {
      setLast(null);
      bench.edit(() => candidate, drag ?? walk);
      return true;
    }
    if (drag !== undefined) bench.forget(drag);
    setLast({ file: bench.store.getState().file, rings: next, issues: read.issues });
    return false;
  };
  return {
    rings,
    names: [rings[0]?.map((_, i) => ({ id: `side-${i + 1}`, title: `${i + 1}` })) ?? []],
    kept: [kept],
    made: null,
    issues: refused?.issues ?? [],
    said: null,
    canHaveCourts: false,
    edit,
    setLength: (spot, value, gesture) => {
      const read = parseLength(value as string | number);
      if (read.ok) return edit(setSideLength(rings, spot, read.value), gesture === undefined ? {} : { walk: gesture });
      setLast({ file, rings, issues: read.issues });
      return false;
    },
    saySide: () => false,
    editFirst: ([first]: readonly Edited[]) => first !== undefined && edit({ ...first, from: sameSides(first.rings) }),
    giveUp: () => setLast(null),
  };
};
