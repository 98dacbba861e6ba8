import type { Issue } from '../issue.ts';
import { isAtMost, isSameAngle, NOISE_MM } from '../tolerance.ts';
import {
  defaultRuler,
  formatLength,
  formatPitch,
  parseLength,
  parsePitch,
  type Ruler,
  rulerStep,
  type Units,
} from '../units/units.ts';
import type { LengthLimits } from './limits.ts';
import { formatPath, type PathPart } from './path.ts';
import { projectIssue, showFound } from './sentences.ts';

/** What reading a file carries along: how to speak of lengths, and where issues are gathered. */
export interface Intake {
  readonly units: Units;
  /** Measures that miss each other by one mark of it are taken to agree. */
  readonly ruler: Ruler;
  /** Model size over typed size. */
  readonly scale: number;
  readonly report: (issue: Issue) => void;
}

export interface LengthRule extends LengthLimits {
  /** Start of the sentence, as `The rise`. */
  readonly label: string;
  /** Multiplied by the project's scale. */
  readonly isScaled?: boolean;
}

/**
 * mm at model size. NaN, with an issue reported, where the text cannot be read or lies outside its bounds. What is
 * neither number nor text was reported with the structure of the file; then NaN and nothing more.
 */
export function readLength(intake: Intake, found: unknown, path: readonly PathPart[], rule: LengthRule): number {
  if (typeof found !== 'number' && typeof found !== 'string') return Number.NaN;
  const parsed = parseLength(found, { negative: rule.min < 0 ? 'allow' : 'refuse' });
  if (!parsed.ok) return reportAt(intake, parsed.issues, path);
  const mm = rule.isScaled ? parsed.value * intake.scale : parsed.value;
  if (isAtMost(rule.min, mm) && isAtMost(mm, rule.max)) return mm;
  const atScale = rule.isScaled && intake.scale !== 1 ? `, in the model ${showLength(mm, intake.units)}` : '';
  intake.report(
    projectIssue(
      'out-of-bounds',
      formatPath(path),
      { label: rule.label, found: showFound(found), other: atScale, allowed: showBounds(rule, intake) },
      { found: mm, least: rule.min, most: rule.max },
    ),
  );
  return Number.NaN;
}

/** Radians; NaN as for lengths. */
export function readPitch(intake: Intake, found: unknown, path: readonly PathPart[], rule: LengthRule): number {
  if (typeof found !== 'number' && typeof found !== 'string') return Number.NaN;
  const parsed = parsePitch(found);
  if (!parsed.ok) return reportAt(intake, parsed.issues, path);
  const pitch = parsed.value;
  const isInside =
    (pitch > rule.min || isSameAngle(pitch, rule.min)) && (pitch < rule.max || isSameAngle(pitch, rule.max));
  if (isInside) return pitch;
  const allowed = `${formatPitch(rule.min)} to ${formatPitch(rule.max)}`;
  intake.report(
    projectIssue('out-of-bounds', formatPath(path), { label: rule.label, found: showFound(found), allowed }),
  );
  return Number.NaN;
}

function reportAt(intake: Intake, issues: readonly Issue[], path: readonly PathPart[]): number {
  for (const issue of issues) intake.report({ ...issue, path: formatPath(path) });
  return Number.NaN;
}

/** A hundredth of a millimetre, as far as bounds are written out. */
const SMALLEST_SHOWN = 0.01;

export const showLength = (mm: number, units: Units): string => formatLength(mm, { units });

/** Bounds as a maker can type them: in sixteenths of an inch, rounded inwards, or in millimetres. */
export function showBounds({ min, max, isScaled }: Omit<LengthRule, 'label'>, { units, scale }: Intake): string {
  const model = isScaled && scale !== 1 ? ' in the model' : '';
  const step = units === 'in' ? rulerStep(defaultRuler.in) : SMALLEST_SHOWN;
  const least = Math.ceil((min - NOISE_MM) / step) * step;
  const most = Math.floor((max + NOISE_MM) / step) * step;
  return `${showLength(least, units)} to ${showLength(most, units)}${model}`;
}
