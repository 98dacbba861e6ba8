/** What a command sees of the world: two streams and two folders. Tests hand in their own. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Folder that relative paths start from. */
  readonly cwd: string;
  /** Folder `assets` of this program: the PDF font. */
  readonly assets: string;
  /** Milliseconds that have passed since some moment. */
  readonly now: () => number;
}

/** What was asked for cannot be done: one line a sentence, exit code 2, nothing written. */
export class BadInput extends Error {
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.name = 'BadInput';
    this.lines = lines;
  }
}

export const exitCodes = { fits: 0, misfits: 1, badInput: 2 } as const;
