import { useState } from 'react';
import type { SideName } from '../../core/footprint/sides.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Issue } from '../../core/issue.ts';
import type { RoofSpec } from '../../core/project/project.ts';
import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { parseLength } from '../../core/units/units.ts';
import { bench, useBench, useStyle } from '../bench.ts';
import { obstacles } from '../obstacles.ts';
import type { RoofAtHand } from '../places/use-roof.ts';
import { isObject, type Json, type JsonObject, setAt } from '../state/file-path.ts';
import { shapeOf } from '../state/roof-edits.ts';
import { type Edited, type Rings, type Spot, sameSides, setSideLength, upon } from './plan-edits.ts';
import { carrySides, type MadePlan, namesOf, readPlan, typeLength, writePlan } from './plan-text.ts';

/** What is drawn: the walls of the body, or the eave where it is given by its sizes. */
export type PlanOf = 'body' | 'eave';

/** The parameter that says something of single sides; null for a kind whose sides are alike. */
const sidesKey = ({ params }: RoofDefinition): string | null =>
  params.find((param) => (param.quantity as string) === 'side-pitches')?.key ?? null;

const takes = ({ params }: RoofDefinition, quantity: string): boolean =>
  params.some((param) => (param.quantity as string) === quantity);

/** A round body has none. */
const hasCorners = (body: Json | undefined): boolean => isObject(body) && body['diameter'] === undefined;

/** What of a roof can be drawn in plan. */
export const plansOf = ({ typed, definition }: Pick<RoofAtHand, 'typed' | 'definition'>): readonly PlanOf[] => [
  ...(hasCorners(typed['body']) ? (['body'] as const) : []),
  ...(typed['overhang'] === undefined && takes(definition, 'footprint') ? (['eave'] as const) : []),
];

/** Whether single sides of this roof can be told what they are, and its plan drawn to tell them. */
export const hasSides = (hand: Pick<RoofAtHand, 'typed' | 'definition'>): boolean =>
  sidesKey(hand.definition) !== null && plansOf(hand).length > 0;

const madeEave = ({ shape }: RoofSpec): MadePlan | null => {
  const { corners, courts, width, depth } = shape as Readonly<Record<string, unknown>>;
  if (Array.isArray(corners)) return { outline: corners as Vec2[], courts: courts as Vec2[][] | undefined };
  if (typeof width !== 'number' || typeof depth !== 'number') return null;
  const [x, y] = [width / 2, depth / 2];
  return {
    outline: [
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ],
  };
};

export interface PlanAtHand {
  /** As drawn: with an edit that the file could not take, if there is one. */
  readonly rings: Rings;
  readonly names: readonly (readonly SideName[])[];
  /** As the file says it. */
  readonly kept: Rings;
  /** The same as it was made, model size; what the roof's lines are drawn against. */
  readonly made: MadePlan | null;
  /** Why the last edit was not taken. */
  readonly issues: readonly Issue[];
  /** What is said of single sides, and whether this kind lets it be said. */
  readonly said: JsonObject | null;
  readonly canHaveCourts: boolean;
  /**
   * Takes an edit if there is a roof over it; otherwise draws it and says why not. `drag`: the name of a gesture whose
   * edits all begin from this plan; when one is refused the file is what it was before the drag.
   */
  readonly edit: (edited: Edited, by?: { readonly walk?: string; readonly drag?: string }) => boolean;
  /** A length typed on a side. */
  readonly setLength: (spot: Spot, typed: Json, gesture?: string) => boolean;
  readonly saySide: (id: string, value: Json | undefined, gesture?: string) => boolean;
  /** Takes the first of these for which there is a roof. */
  readonly editFirst: (candidates: readonly Edited[]) => boolean;
  /** Leaves the edit that was not taken. */
  readonly giveUp: () => void;
}

interface Refused {
  readonly file: JsonObject;
  readonly of: PlanOf;
  /** The edit since the file's own plan; null where only a text was refused. */
  readonly edited: Edited | null;
  readonly issues: readonly Issue[];
}

/** The plan of the roof at hand, over the store: what the file cannot take lives here. */
export const usePlan = (hand: RoofAtHand, of: PlanOf): PlanAtHand | null => {
  const file = useBench((state) => state.file);
  const { units } = useStyle();
  const [last, setLast] = useState<Refused | null>(null);
  const { typed, definition, roof, context } = hand;
  const path = of === 'body' ? 'body' : 'shape';
  const group = (typed[path] ?? {}) as JsonObject;
  const made = of === 'body' ? roof.spec.body : madeEave(roof.spec);
  const kept = readPlan(group, made, context.scale);
  if (kept === null) return null;

  // An edit that was refused is drawn until the file changes.
  const refused = last !== null && last.file === file && last.of === of ? last : null;
  const key = sidesKey(definition);
  const shape = shapeOf(typed);
  const said = key === null ? null : ((shape[key] ?? {}) as JsonObject);
  const drawn = refused?.edited ?? { rings: kept, from: sameSides(kept) };

  const withSides = (roofNow: JsonObject, sides: JsonObject): JsonObject => {
    if (key === null) return roofNow;
    const isEmpty = Object.keys(sides).length === 0;
    return setAt(roofNow, ['shape', key], isEmpty ? undefined : sides) as JsonObject;
  };

  const fileOf = (candidate: JsonObject): JsonObject => setAt(file, hand.at(), candidate) as JsonObject;

  /** `whole`: what has become of the file's own plan. */
  const candidateOf = (whole: Edited): JsonObject => {
    const next = { ...typed, [path]: writePlan(group, kept, whole, units) };
    return said === null || Object.keys(said).length === 0 ? next : withSides(next, carrySides(said, kept, whole));
  };

  const refuse = (edited: Edited | null, issues: readonly Issue[]): false => {
    setLast({ file: bench.store.getState().file, of, edited, issues });
    return false;
  };

  const take = (candidate: JsonObject, whole: Edited | null, gesture?: string, isDrag = false): boolean => {
    const next = fileOf(candidate);
    const issues = obstacles(next, bench.store.getState().selected);
    if (issues !== null) {
      if (isDrag && gesture !== undefined) bench.forget(gesture);
      return refuse(whole, issues);
    }
    setLast(null);
    bench.edit(() => next, gesture);
    return true;
  };

  const edit: PlanAtHand['edit'] = (edited, { walk, drag } = {}) => {
    const whole = upon(drawn.from, edited);
    return take(candidateOf(whole), whole, drag ?? walk, drag !== undefined);
  };

  return {
    rings: drawn.rings,
    names: namesOf(drawn.rings),
    kept,
    made,
    issues: refused?.issues ?? [],
    said,
    canHaveCourts: takes(definition, 'courts'),
    edit,
    setLength: (spot, value, gesture) => {
      const read = parseLength(value as string | number);
      if (!read.ok) return refuse(refused?.edited ?? null, read.issues);
      const asMeasured = drawn.rings === kept ? typeLength(group, spot, value) : null;
      if (asMeasured !== null) return take({ ...typed, [path]: asMeasured }, null, gesture);
      return edit(setSideLength(drawn.rings, spot, read.value), gesture === undefined ? {} : { walk: gesture });
    },
    saySide: (id, value, gesture) => {
      const { [id]: _, ...others } = said ?? {};
      return take(withSides(typed, value === undefined ? others : { ...said, [id]: value }), null, gesture);
    },
    editFirst: (candidates) => {
      const { selected } = bench.store.getState();
      const against = candidates.map((one) => obstacles(fileOf(candidateOf(upon(drawn.from, one))), selected));
      const found = candidates[against.indexOf(null)];
      return found === undefined ? refuse(null, against[0] ?? []) : edit(found);
    },
    giveUp: () => setLast(null),
  };
};
