/**
 * Every command with its options, once: reading the words, the help texts and the README's table come from here.
 */

interface Option {
  readonly name: string;
  /** Missing: the option takes no value. */
  readonly value?: string;
  readonly help: string;
}

interface Command {
  readonly name: string;
  readonly summary: string;
  /** The one file it reads. */
  readonly operand?: { readonly value: string; readonly help: string };
  readonly options: readonly Option[];
  /** What each exit code means. */
  readonly exits: readonly string[];
}

/** What `--only` may name. */
export const outputs = [
  { id: 'pdf', help: 'true-scale print of every sheet and piece' },
  { id: 'svg', help: 'drawings in mm for a cutting machine' },
  { id: 'report', help: 'report.json: every number behind the roofs' },
  { id: 'guide', help: 'guide.pdf: the order of work, step by step' },
] as const;

export type Output = (typeof outputs)[number]['id'];

const project = { value: 'FILE', help: 'a project file (*.roofs.json)' };

export const commands = [
  {
    name: 'produce',
    summary: 'Make every output of a project in a folder.',
    operand: project,
    options: [
      { name: 'out', value: 'DIR', help: 'the folder to write; needed. All is written, or nothing' },
      { name: 'only', value: 'LIST', help: `outputs to write, of ${outputs.map(({ id }) => id).join(', ')}` },
      { name: 'seed', value: 'N', help: 'seed of the layout, instead of the one in the project' },
      { name: 'rounds', value: 'N', help: 'rounds of search for each net and for the layout' },
      { name: 'effort', value: 'SECONDS', help: 'search for a layout by the clock instead of by rounds' },
    ],
    exits: ['0 made and fits', '1 made, but something does not fit', '2 bad input: nothing is written'],
  },
  {
    name: 'check',
    summary: 'Say whether every roof closes, sits on its body and fits the stock.',
    operand: project,
    options: [{ name: 'json', help: 'print the report instead of a table' }],
    exits: ['0 fits', '1 does not fit', '2 bad input'],
  },
  {
    name: 'kinds',
    summary: 'List the kinds of roof with their parameters, bounds and defaults.',
    options: [{ name: 'json', help: 'print them as JSON' }],
    exits: ['0 listed', '2 bad input'],
  },
] as const satisfies readonly Command[];

export type CommandName = (typeof commands)[number]['name'];

export const findCommand = (name: string): Command | undefined => commands.find((command) => command.name === name);

const columns = (rows: readonly (readonly [string, string])[]): string => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}\n`).join('');
};

const optionWord = ({ name, value }: Option): string => `--${name}${value === undefined ? '' : ` ${value}`}`;

/** What one command understands, line by line. */
export function commandHelp(command: Command): string {
  const required = command.options.some(({ name }) => name === 'out') ? ' --out DIR' : '';
  const words = [command.name, command.operand?.value].filter((word) => word !== undefined);
  const rows: (readonly [string, string])[] = [
    ...(command.operand ? [[command.operand.value, command.operand.help] as const] : []),
    ...command.options.map((option) => [optionWord(option), option.help] as const),
    ['--help', 'this text'],
  ];
  const listed = command.name === 'produce' ? `\nOutputs\n${columns(outputs.map(({ id, help }) => [id, help]))}` : '';
  const exits = columns(command.exits.map((line) => [line.slice(0, 1), line.slice(2)]));
  return `${command.summary}\n\nspirewright ${words.join(' ')}${required} [options]\n\n${columns(rows)}${listed}\nExit codes\n${exits}`;
}

/** The three commands. */
export function programHelp(): string {
  const rows = commands.map((command) => {
    const operand = 'operand' in command ? ` ${command.operand.value}` : '';
    const required = command.name === 'produce' ? ' --out DIR' : '';
    return [`spirewright ${command.name}${operand}${required}`, command.summary] as const;
  });
  return `Roofs for miniature towers and houses: from measurements to a net that folds up and fits.\n\n${columns(rows)}\nspirewright COMMAND --help tells more.\n`;
}
