import { describe, expect, it } from 'vitest';
import { commandHelp, commands, programHelp } from './commands.ts';
import { readWords } from './read-words.ts';
import { BadInput } from './terminal.ts';

const refusal = (...words: string[]): string => {
  try {
    readWords(words);
  } catch (error) {
    if (error instanceof BadInput) return error.lines.join('\n');
    throw error;
  }
  throw new Error(`'${words.join(' ')}' was taken`);
};

describe('words that are understood', () => {
  it('produce with everything said', () => {
    const words = ['produce', 'a.roofs.json', '--out', 'made', '--only', 'report,pdf', '--seed=7', '--rounds', '40'];
    expect(readWords(words)).toEqual({
      command: 'produce',
      file: 'a.roofs.json',
      out: 'made',
      options: { only: ['pdf', 'report'], seed: 7, rounds: 40, effort: null },
    });
  });

  it('produce with its defaults: every output', () => {
    expect(readWords(['produce', '--out=x', 'a.roofs.json'])).toMatchObject({
      options: { only: ['pdf', 'svg', 'report', 'guide'], seed: null, rounds: null, effort: null },
    });
  });

  it('a file whose name begins with a hyphen, after --', () => {
    expect(readWords(['check', '--', '-a.roofs.json'])).toEqual({
      command: 'check',
      file: '-a.roofs.json',
      json: false,
    });
  });

  it.each([[[]], [['--help']], [['-h']], [['help']]])('%j asks for help', (words) => {
    expect(readWords(words)).toEqual({ command: 'help', about: null });
  });

  it('help about one command, said either way', () => {
    expect(readWords(['produce', '--help'])).toEqual({ command: 'help', about: 'produce' });
    expect(readWords(['help', 'check'])).toEqual({ command: 'help', about: 'check' });
  });
});

describe('words that are refused, and say why', () => {
  it.each([
    [['fold', 'a'], "no command 'fold'"],
    [['produce', '--out', 'x'], 'which project file?'],
    [['produce', 'a'], '--out DIR'],
    [['produce', 'a', '--out'], '--out needs a value'],
    [['produce', 'a', '--out', 'x', '--seed', '1.5'], "whole number from 0 to 4294967295, found '1.5'"],
    [['produce', 'a', '--out', 'x', '--seed', '-1'], "found '-1'"],
    [['produce', 'a', '--out', 'x', '--rounds', '0'], "whole number from 1 to 4294967295, found '0'"],
    [['produce', 'a', '--out', 'x', '--effort', '1e3'], "above 0, found '1e3'"],
    [['produce', 'a', '--out', 'x', '--effort', '2', '--rounds', '3'], 'not both'],
    [['produce', 'a', '--out', 'x', '--only', 'pdf,png'], "not 'png'"],
    [['produce', 'a', '--out', 'x', '--out', 'y'], 'given twice'],
    [['check', 'a', 'b'], "'b' is one word too many"],
    [['check', 'a', '--fast'], 'no option --fast'],
    [['check', 'a', '--json=yes'], "takes no value, found 'yes'"],
    [['kinds', '-x'], 'no option -x'],
    [['help', 'fold'], "no command 'fold'"],
  ])('%j', (words, message) => {
    expect(refusal(...words)).toContain(message);
  });
});

describe('help', () => {
  it('names every command, option and exit code', () => {
    for (const command of commands) {
      expect(programHelp()).toContain(`spirewright ${command.name}`);
      const text = commandHelp(command);
      for (const { name, help } of command.options) {
        expect(text).toContain(`--${name}`);
        expect(text).toContain(help);
      }
      for (const line of command.exits) expect(text).toContain(line.slice(2));
    }
  });
});
