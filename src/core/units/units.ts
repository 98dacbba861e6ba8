/**
 * Lengths, pitches and scales as text. Inside the program lengths are mm and angles radians; text becomes numbers and
 * numbers become text only here.
 */
export {
  formatLength,
  formatMark,
  type LengthReading,
  type LengthStyle,
  parseLength,
} from './length.ts';
export {
  CORNER_FORMS,
  formatPitch,
  fromDegrees,
  PITCH_FORMS,
  type PitchReading,
  parseCorner,
  parsePitch,
  toDegrees,
} from './pitch.ts';
export {
  defaultRuler,
  MM_PER_INCH,
  type Ruler,
  type RulerMark,
  roundToRuler,
  rulerStep,
  rulers,
  rulerUnits,
  type Units,
  unitLength,
} from './ruler.ts';
export { parseScale } from './scale.ts';
