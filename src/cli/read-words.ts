import { parseArgs } from 'node:util';
import { type CommandName, commands, findCommand, type Output, outputs } from './commands.ts';
import { BadInput } from './terminal.ts';

export type Request =
  | { readonly command: 'help'; readonly about: string | null }
  | { readonly command: 'produce'; readonly file: string; readonly out: string; readonly options: ProduceOptions }
  | { readonly command: 'check'; readonly file: string; readonly json: boolean }
  | { readonly command: 'kinds'; readonly json: boolean };

export interface ProduceOptions {
  readonly only: readonly Output[];
  /** Null: the project's own. */
  readonly seed: number | null;
  readonly rounds: number | null;
  readonly effort: number | null;
}

type Values = Readonly<Record<string, string | boolean | undefined>>;

/**
 * The words after the program's name, understood.
 * @throws BadInput for anything that is not in the table of commands.
 */
export function readWords(words: readonly string[]): Request {
  const [first, ...rest] = words;
  if (first === undefined || first === '--help' || first === '-h' || first === 'help') {
    const about = first === 'help' ? (rest[0] ?? null) : null;
    if (about !== null && !findCommand(about)) throw unknownCommand(about);
    return { command: 'help', about };
  }
  const command = findCommand(first);
  if (!command) throw unknownCommand(first);
  const { values, operands } = split(first, rest);
  if (values['help'] === true) return { command: 'help', about: first };
  const wanted = command.operand ? 1 : 0;
  if (operands.length > wanted)
    throw new BadInput([`spirewright ${first}: '${operands[wanted]}' is one word too many. ${seeHelp(first)}`]);
  const [file] = operands;
  const name = first as CommandName;
  if (name === 'kinds') return { command: 'kinds', json: values['json'] === true };
  if (file === undefined) throw new BadInput([`spirewright ${first}: which project file? ${seeHelp(first)}`]);
  if (name === 'check') return { command: 'check', file, json: values['json'] === true };
  return { command: 'produce', file, out: readOut(values), options: readProduceOptions(values) };
}

const seeHelp = (command: string): string => `See spirewright ${command} --help.`;

const unknownCommand = (word: string): BadInput =>
  new BadInput([
    `spirewright: there is no command '${word}'. There are ${commands.map(({ name }) => name).join(', ')}; see spirewright --help.`,
  ]);

/** Options and operands of one command, by its table; an option that is not in it is refused by name. */
function split(name: string, words: readonly string[]): { values: Values; operands: readonly string[] } {
  const options = findCommand(name)?.options ?? [];
  const table = Object.fromEntries(
    options.map((option) => [option.name, { type: option.value === undefined ? 'boolean' : 'string' } as const]),
  );
  const { tokens } = parseArgs({
    args: [...words],
    options: { ...table, help: { type: 'boolean', short: 'h' } },
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const values: Record<string, string | boolean> = {};
  const operands: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    if (token.kind !== 'option') continue;
    const option = options.find((one) => one.name === token.name);
    if (!option && token.name !== 'help') {
      const known = options.map((one) => `--${one.name}`).join(', ');
      throw new BadInput([`spirewright ${name}: there is no option ${token.rawName}. It takes ${known}.`]);
    }
    if (option?.value === undefined && token.value !== undefined)
      throw new BadInput([`spirewright ${name}: --${token.name} takes no value, found '${token.value}'.`]);
    if (option?.value !== undefined && (token.value === undefined || token.value === ''))
      throw new BadInput([`spirewright ${name}: --${token.name} needs a value: --${token.name} ${option.value}.`]);
    if (values[token.name] !== undefined) throw new BadInput([`spirewright ${name}: --${token.name} is given twice.`]);
    values[token.name] = token.value ?? true;
  }
  return { values, operands };
}

function readOut(values: Values): string {
  const { out } = values;
  if (typeof out === 'string') return out;
  throw new BadInput([`spirewright produce: where to? Name a folder with --out DIR.`]);
}

function readProduceOptions(values: Values): ProduceOptions {
  const rounds = readCount(values, 'rounds', 1);
  const effort = readSeconds(values);
  if (rounds !== null && effort !== null)
    throw new BadInput(['spirewright produce: give --rounds or --effort, not both.']);
  return { only: readOnly(values), seed: readCount(values, 'seed', 0), rounds, effort };
}

const MOST_COUNT = 4_294_967_295;

function readCount(values: Values, name: string, least: number): number | null {
  const text = values[name];
  if (typeof text !== 'string') return null;
  const count = Number(text);
  if (/^\d+$/.test(text) && count >= least && count <= MOST_COUNT) return count;
  throw new BadInput([
    `spirewright produce: --${name} must be a whole number from ${least} to ${MOST_COUNT}, found '${text}'.`,
  ]);
}

function readSeconds(values: Values): number | null {
  const text = values['effort'];
  if (typeof text !== 'string') return null;
  const seconds = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && seconds > 0) return seconds;
  throw new BadInput([`spirewright produce: --effort must be a number of seconds above 0, found '${text}'.`]);
}

function readOnly(values: Values): readonly Output[] {
  const text = values['only'];
  if (typeof text !== 'string') return outputs.map(({ id }) => id);
  const names = text.split(',').map((name) => name.trim());
  const unknown = names.filter((name) => !outputs.some(({ id }) => id === name));
  const known = outputs.map(({ id }) => id).join(', ');
  if (unknown.length > 0)
    throw new BadInput(unknown.map((name) => `spirewright produce: --only knows ${known}, not '${name}'.`));
  return outputs.filter(({ id }) => names.includes(id)).map(({ id }) => id);
}
