import type { SeamMatch } from '../../core/layout/print-match.ts';

/** How a print goes over a seam, as a sentence without its subject. */
export const seamWords = ({ run, off }: SeamMatch, show: (mm: number) => string): string => {
  if (run === 'runs-on') return 'the print runs on';
  if (run === 'meets') return 'line meets line';
  return off === null ? 'two papers meet' : `breaks by ${show(off)}`;
};

/** All seams in one sentence. */
export const seamSummary = (matches: readonly SeamMatch[]): string => {
  const broken = matches.filter(({ run }) => run === 'breaks').length;
  const whole = matches.length;
  if (broken === 0)
    return whole === 1 ? 'The print goes over the one seam.' : `The print goes over all ${whole} seams.`;
  if (broken === whole)
    return whole === 1 ? 'The print breaks at the one seam.' : `The print breaks at all ${whole} seams.`;
  return `The print breaks at ${broken} of ${whole} seams.`;
};
