import { kinds } from '../core/roofs/catalogue.ts';
import { fileKeysOf, isTyped, type Param, type TypedParam } from '../core/roofs/definition.ts';
import { toDegrees } from '../core/units/units.ts';
import { type Json, writeJson } from '../io/report/write-json.ts';
import { tableText } from './columns.ts';
import { exitCodes, type Terminal } from './terminal.ts';

/** Every kind of roof with its parameters; lengths in mm, pitches in degrees. */
export function kindsCommand({ json }: { readonly json: boolean }, terminal: Terminal): number {
  terminal.out(json ? `${writeJson({ kinds: kindList() })}\n` : kindsText());
  return exitCodes.fits;
}

const unitOf: Readonly<Record<Param['quantity'], string>> = {
  length: 'mm',
  pitch: 'degrees',
  count: '',
  choice: '',
  footprint: 'mm',
  courts: 'mm',
  'side-pitches': 'degrees',
  roof: '',
  wall: 'mm',
};

/** A parameter's figure in the unit that `kinds` prints. */
const shown = (param: TypedParam, value: number): number =>
  param.quantity === 'pitch' ? Number(toDegrees(value).toFixed(9)) : value;

function kindList(): Json {
  return kinds.map(({ id, title, summary, params, examples }) => ({
    id,
    title,
    summary,
    parameters: params.map((param) => ({
      key: param.key,
      label: param.label,
      help: param.help,
      quantity: param.quantity,
      ...(param.quantity === 'footprint' ? { keys: fileKeysOf(param) } : {}),
      ...(unitOf[param.quantity] === '' ? {} : { unit: unitOf[param.quantity] }),
      ...(param.oneOf === undefined ? {} : { oneOf: param.oneOf }),
      ...(param.outline === undefined ? {} : { outline: param.outline }),
      ...(param.optional === undefined ? {} : { optional: param.optional }),
      ...boundsOf(param),
    })),
    examples: examples.map((example) => ({ title: example.title, shape: example.shape as unknown as Json })),
  }));
}

function boundsOf(param: Param): Readonly<Record<string, Json>> {
  if (!isTyped(param)) return {};
  if (param.quantity === 'choice')
    return { choices: param.choices.map(({ value, label }) => ({ value, label })), default: param.default };
  const bounds = { min: shown(param, param.min), max: shown(param, param.max) };
  return param.default === undefined ? bounds : { ...bounds, default: shown(param, param.default) };
}

function kindsText(): string {
  return kinds
    .map(({ id, title, summary, params }) => {
      const rows = params.map((param) => [
        fileKeysOf(param).join(', '),
        param.label,
        ...boundsCells(param),
        param.help,
      ]);
      return `${title} (${id})\n${summary}\n\n${tableText(['Parameter', 'Label', 'Allowed', 'Default', ''], rows)}`;
    })
    .join('\n\n');
}

/** Allowed and default of a parameter, in words. */
export function boundsCells(param: Param): readonly [string, string] {
  if (!isTyped(param)) return [wordsFor[param.quantity], whenLeftOut(param)];
  if (param.quantity === 'choice') return [param.choices.map(({ value }) => value).join(', '), param.default];
  const unit = unitOf[param.quantity];
  const text = (value: number): string => [String(shown(param, value)), unit].filter((part) => part !== '').join(' ');
  const fallback = param.default === undefined ? whenLeftOut(param) : text(param.default);
  return [`${shown(param, param.min)} to ${text(param.max)}`, fallback];
}

const wordsFor = {
  footprint: 'corners, or lengths with a diagonal or angles',
  courts: 'lists of corners',
  'side-pitches': 'a pitch or "gable" for each side',
  roof: 'a roof of another kind',
  wall: 'as a body',
} as const;

function whenLeftOut({ optional, oneOf }: Param): string {
  if (optional) return 'may be left out';
  return oneOf === undefined ? 'must be given' : `one of the ${oneOf} group`;
}
