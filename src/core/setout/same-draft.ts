import { distance2, type Vec2 } from '../geometry/vector.ts';
import { isSameAngle, isSameLength, ROLL_MM } from '../tolerance.ts';
import type { Draft, DraftEdge, DraftPanel } from './draft.ts';
import type { FlapMarks } from './flap-marks.ts';

/** Whether two pieces are drawn alike from their origins: the same marks, folds, flaps, curves and glue lines. */
export const isSameDraft = (a: Draft, b: Draft): boolean =>
  a === b ||
  (a.step === b.step &&
    isSamePoint(a.rounded.size, b.rounded.size) &&
    a.hasRoundGlue === b.hasRoundGlue &&
    (a.fan === null) === (b.fan === null) &&
    eachSame(a.panels, b.panels, isSamePanel) &&
    eachSame(a.glue.flat(), b.glue.flat(), isSamePoint));

const eachSame = <T>(a: readonly T[], b: readonly T[], isSame: (p: T, q: T) => boolean): boolean =>
  a.length === b.length && a.every((p, i) => isSame(p, b[i] as T));

const isSamePoint = (p: Vec2, q: Vec2): boolean => isSameLength(p[0], q[0]) && isSameLength(p[1], q[1]);

const isSamePanel = (a: DraftPanel, b: DraftPanel): boolean => eachSame(a.edges, b.edges, isSameEdge);

const isSameEdge = (a: DraftEdge, b: DraftEdge): boolean =>
  a.fold === b.fold &&
  eachSame(a.ends, b.ends, isSamePoint) &&
  // Straight edges are drawn from mark to mark, curves through their samples.
  a.path.length === b.path.length &&
  (a.path.length === 2 || eachSame(a.path, b.path, (p, q) => distance2(p, q) <= ROLL_MM)) &&
  eachSame(a.flaps, b.flaps, (f, g) => f.kind === g.kind && isSameFlap(f.marks, g.marks)) &&
  isSameTeeth(a.teeth, b.teeth) &&
  isSameBlade(a.cut, b.cut);

const isSameFlap = (a: FlapMarks | null, b: FlapMarks | null): boolean =>
  a === null || b === null ? a === b : a.zero === b.zero && eachSame(a.marks, b.marks, isSamePoint);

const isSameTeeth = (a: DraftEdge['teeth'], b: DraftEdge['teeth']): boolean =>
  a === null || b === null
    ? a === b
    : a.kind === b.kind &&
      isSameLength(a.width, b.width) &&
      isSameLength(a.apart, b.apart) &&
      isSameLength(a.notch, b.notch);

const isSameBlade = (a: DraftEdge['cut'], b: DraftEdge['cut']): boolean =>
  a === null || b === null ? a === b : a.lap === b.lap && isSameAngle(a.bevel, b.bevel);
