import { fail, type Issue, type Result, succeed } from '../issue.ts';
import { amountValue, plainText, readAmount } from './amount-text.ts';

/** The forms a pitch may have, for messages and help. */
export const PITCH_FORMS = '35 (degrees), "35deg", "35°" or "8/12" (rise over run)';

const DEGREES = 180;

/** Angle in radians of one in degrees. */
export const fromDegrees = (degrees: number): number => (degrees * Math.PI) / DEGREES;

/** Angle in degrees of one in radians. */
export const toDegrees = (radians: number): number => (radians * DEGREES) / Math.PI;

export interface PitchReading {
  /** A text without unit is degrees, as in a text field; otherwise it is refused. */
  readonly bare?: 'degrees';
}

/** Pitch in radians, from level to upright. A number is degrees. Bounds of a kind are the caller's. */
export function parsePitch(input: string | number, reading: PitchReading = {}): Result<number> {
  if (typeof input === 'number') return inRange(fromDegrees(input), String(input));
  const plain = plainText(input);
  const ratio = /^(\S.*?) ?\/ ?([\d.]+)$/.exec(plain);
  if (ratio) {
    const rise = readAmount(ratio[1] ?? '');
    const run = readAmount(ratio[2] ?? '');
    if (!rise || !run || run.top === 0) return fail(unreadable(input));
    return inRange(Math.atan2(amountValue(rise), amountValue(run)), input);
  }
  const degrees = /^([\d.]+) ?(deg|degree|degrees|°)?$/.exec(plain);
  const amount = readAmount(degrees?.[1] ?? '');
  if (!amount) return fail(unreadable(input));
  if (degrees?.[2] === undefined && reading.bare !== 'degrees') {
    return fail({
      level: 'error',
      code: 'pitch-without-unit',
      path: '',
      message: `"${input}" has no unit.`,
      remedy: `Write a pitch as ${PITCH_FORMS}.`,
    });
  }
  return inRange(fromDegrees(amountValue(amount)), input);
}

function inRange(pitch: number, found: string): Result<number> {
  if (pitch >= 0 && pitch <= Math.PI / 2) return succeed(pitch);
  if (!Number.isFinite(pitch)) return fail(unreadable(found));
  return fail({
    level: 'error',
    code: 'pitch-range',
    path: '',
    numbers: { found: toDegrees(pitch) },
    message: `A pitch of ${found} is not possible: it lies between level (0°) and upright (90°).`,
    remedy: `Write a pitch as ${PITCH_FORMS}.`,
  });
}

const unreadable = (found: string): Issue => ({
  level: 'error',
  code: 'pitch-unreadable',
  path: '',
  message: `"${found}" is not a pitch.`,
  remedy: `Write it as ${PITCH_FORMS}.`,
});

/** Degrees with up to two decimals: `33.69°`. */
export const formatPitch = (pitch: number): string => `${Number(toDegrees(pitch).toFixed(2)) + 0}°`;

/** The forms of an angle at a corner of a plan, for messages and help. */
export const CORNER_FORMS = '91.5 (degrees), "91.5deg" or "91.5°"';

/** Inside angle at a corner of a plan, radians: over 0 and under a full turn. A number is degrees. */
export function parseCorner(input: string | number): Result<number> {
  const plain =
    typeof input === 'number' ? input : (/^(\S.*?) ?(deg|degree|degrees|°)$/.exec(plainText(input))?.[1] ?? '');
  const amount = typeof plain === 'number' ? { top: plain, bottom: 1 } : readAmount(plain);
  if (!amount) return fail(notCorner(String(input)));
  const degrees = amountValue(amount);
  return degrees > 0 && degrees < 2 * DEGREES ? succeed(fromDegrees(degrees)) : fail(notCorner(String(input)));
}

const notCorner = (found: string): Issue => ({
  level: 'error',
  code: 'corner-unreadable',
  path: '',
  message: `"${found}" is not an angle at a corner: that lies between 0° and 360°.`,
  remedy: `Write it as ${CORNER_FORMS}.`,
});
