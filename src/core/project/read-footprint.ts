import { checkCourts } from '../footprint/check-ring.ts';
import { footprintFrom, footprintKeys, type Measures } from '../footprint/footprint.ts';
import type { Plan } from '../footprint/offset.ts';
import { add2, type Vec2 } from '../geometry/vector.ts';
import { type Issue, spell } from '../issue.ts';
import { fromDegrees, parseCorner, rulerStep } from '../units/units.ts';
import { type Intake, type LengthRule, readLength, showLength } from './intake.ts';
import { lengthLimits } from './limits.ts';
import { formatPath, type PathPart } from './path.ts';

/** A protractor is read to half a degree. */
const ANGLE_READ = fromDegrees(0.5);

const cornerRule: LengthRule = { ...lengthLimits.corner, label: 'The place of the corner', isScaled: true };
const sideRule: LengthRule = { ...lengthLimits.bodySide, label: 'The length of the side', isScaled: true };
const diagonalRule: LengthRule = { ...lengthLimits.diagonal, label: 'The diagonal', isScaled: true };

/** The footprint keys of a group that are given. */
export const footprintKeysIn = (found: Readonly<Record<string, unknown>>): readonly string[] =>
  footprintKeys.filter((key) => found[key] !== undefined);

/** Whether footprint keys say one thing: corners, or lengths with what may stand beside them. */
export const isFootprintForm = (keys: readonly string[]): boolean =>
  keys.join() === 'corners' || (keys.includes('lengths') && !keys.includes('corners'));

/** The measured plan at model size, turned and centred; null, with issues reported, where it cannot be read. */
export function readFootprint(
  intake: Intake,
  found: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
): Plan | null {
  const measures: Measures = {
    ...(found['corners'] === undefined ? {} : { corners: readPoints(intake, found['corners'], [...path, 'corners']) }),
    ...(found['lengths'] === undefined
      ? {}
      : {
          lengths: readList(found['lengths'], (entry, i) =>
            readLength(intake, entry, [...path, 'lengths', i], sideRule),
          ),
        }),
    ...(found['diagonal'] === undefined
      ? {}
      : { diagonal: readLength(intake, found['diagonal'], [...path, 'diagonal'], diagonalRule) }),
    ...(found['angles'] === undefined
      ? {}
      : { angles: readList(found['angles'], (entry, i) => readCorner(intake, entry, [...path, 'angles', i])) }),
    courts: readCourts(intake, found['courts'], [...path, 'courts']),
  };
  // What could not be read has been reported, here or with the structure of the file.
  if (!isWhole(measures)) return null;
  const allowance = { gap: rulerStep(intake.ruler), side: lengthLimits.bodySide.min, angle: ANGLE_READ };
  const made = footprintFrom(measures, allowance);
  reportAll(intake, made.issues, path);
  if (!made.ok) return null;
  const { corners, courts } = made.value;
  return courts.length === 0 ? { corners } : { corners, courts };
}

/** Courts measured from the first corner of an outline that is given in another way; null as for a footprint. */
export function readCourtsIn(
  intake: Intake,
  outline: readonly Vec2[],
  found: unknown,
  path: readonly PathPart[],
): readonly (readonly Vec2[])[] | null {
  const typed = readCourts(intake, found, [...path, 'courts']);
  if (!isWhole({ corners: outline, courts: typed })) return null;
  const courts = typed.map((court) => court.map((p) => add2(p, outline[0] as Vec2)));
  const issues = checkCourts(courts, outline, lengthLimits.bodySide.min);
  reportAll(intake, issues, path);
  return issues.length === 0 ? courts : null;
}

function reportAll(intake: Intake, issues: readonly Issue[], path: readonly PathPart[]): void {
  for (const issue of issues) {
    const spelled = spell(issue, (mm) => showLength(mm, intake.units));
    intake.report({ ...spelled, path: `${formatPath(path)}.${issue.path}` });
  }
}

const readCourts = (intake: Intake, found: unknown, path: readonly PathPart[]): readonly (readonly Vec2[])[] =>
  readList(found, (court, c) => readPoints(intake, court, [...path, c]));

const readPoints = (intake: Intake, found: unknown, path: readonly PathPart[]): readonly Vec2[] =>
  readList(found, (point, i): Vec2 => {
    const [x, y] = Array.isArray(point) ? point : [];
    return [readLength(intake, x, [...path, i, 0], cornerRule), readLength(intake, y, [...path, i, 1], cornerRule)];
  });

const readList = <T>(found: unknown, read: (entry: unknown, index: number) => T): readonly T[] =>
  Array.isArray(found) ? found.map(read) : [];

function readCorner(intake: Intake, found: unknown, path: readonly PathPart[]): number {
  if (typeof found !== 'number' && typeof found !== 'string') return Number.NaN;
  const parsed = parseCorner(found);
  if (parsed.ok) return parsed.value;
  for (const issue of parsed.issues) intake.report({ ...issue, path: formatPath(path) });
  return Number.NaN;
}

const LEAST_SIDES = 3;

/** Every figure has been read and every list is long enough to go round. */
function isWhole({ corners, lengths, diagonal = 0, angles = [], courts = [] }: Measures): boolean {
  const rings = [...(corners ? [corners] : []), ...courts];
  const figures = [...rings.flat(2), ...(lengths ?? []), diagonal, ...angles];
  const counts = [...rings.map((ring) => ring.length), ...(lengths ? [lengths.length] : [])];
  return figures.every(Number.isFinite) && counts.every((count) => count >= LEAST_SIDES);
}
