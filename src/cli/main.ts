import { commandHelp, findCommand, programHelp } from './commands.ts';
import { type Request, readWords } from './read-words.ts';
import { BadInput, exitCodes, type Terminal } from './terminal.ts';

/**
 * Runs one command of `spirewright`.
 * @param words after the program's name
 * @returns the exit code: 0 fits, 1 does not fit, 2 bad input (then nothing is written)
 */
export async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  try {
    return await carryOut(readWords(words), terminal);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    for (const line of error.lines) terminal.err(`${line}\n`);
    return exitCodes.badInput;
  }
}

/** Each command's code is loaded when it is asked for: `kinds` does not wait for the PDF writer. */
async function carryOut(request: Request, terminal: Terminal): Promise<number> {
  switch (request.command) {
    case 'help': {
      const command = request.about === null ? undefined : findCommand(request.about);
      terminal.out(command ? commandHelp(command) : programHelp());
      return exitCodes.fits;
    }
    case 'produce': {
      const { produceCommand } = await import('./produce-command.ts');
      return await produceCommand(request, terminal);
    }
    case 'check': {
      const { checkCommand } = await import('./check-command.ts');
      return await checkCommand(request, terminal);
    }
    case 'kinds': {
      const { kindsCommand } = await import('./kinds-command.ts');
      return kindsCommand(request, terminal);
    }
  }
}
