import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findPdftoppm, findProgram } from '../../../scripts/find-program.mjs';
import { produceSample, sampleFont } from '../testing/samples.ts';
import { writePdf } from './write-pdf.ts';

const pdfinfo = findProgram(['pdfinfo']);
const pdftoppm = findPdftoppm();
const hasPoppler = pdfinfo !== null && pdftoppm !== null;
if (!hasPoppler) console.warn('Poppler is not installed: the PDF is not read back by it. npm test installs it.');

describe.runIf(hasPoppler)('poppler', () => {
  it.each([
    ['harbour-gate', 612, 792],
    ['chapel-hill', 595.276, 841.89],
  ] as const)('reads and paints the pages of %s', (name, width, height) => {
    const folder = mkdtempSync(join(tmpdir(), 'spirewright-'));
    try {
      const file = join(folder, 'pages.pdf');
      writeFileSync(file, writePdf(produceSample(name), { font: sampleFont() }));
      const told = execFileSync(pdfinfo ?? '', [file], { encoding: 'utf8' });
      const size = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(told);
      expect([Number(size?.[1]), Number(size?.[2])]).toEqual([width, height]);
      expect(told).toMatch(/Title:\s+Samphire Staithe/);
      execFileSync(pdftoppm ?? '', [
        '-r',
        '50',
        '-png',
        '-f',
        '1',
        '-l',
        '1',
        '-singlefile',
        file,
        join(folder, 'page'),
      ]);
      expect(statSync(join(folder, 'page.png')).size).toBeGreaterThan(3000);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
