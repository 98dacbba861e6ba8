import { jsPDF } from 'jspdf';
import { describe, expect, it } from 'vitest';
import { latin1 } from '../testing/raw-pdf.ts';
import { sampleFont } from '../testing/samples.ts';
import { shortenText, textWidth, wrapText } from './text-width.ts';

const doc = new jsPDF();
doc.addFileToVFS('face.ttf', latin1(sampleFont()));
doc.addFont('face.ttf', 'Face', 'normal');
doc.setFont('Face', 'normal');

const ascii = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i));

describe('text widths', () => {
  it.each([...ascii, ...'¼½¾⅛⅜⅝⅞′″°×·–—‘’“”•…→↑'])('%s is as wide as in the font', (letter) => {
    expect(textWidth(letter, 1)).toBeCloseTo(doc.getStringUnitWidth(letter), 6);
  });

  it.each(['é', 'Ä', 'ø', 'Œ', 'ß', 'Š'])('%s is not narrower than in the font', (letter) => {
    expect(textWidth(letter, 1)).toBeGreaterThanOrEqual(doc.getStringUnitWidth(letter) - 1e-6);
  });

  it('grow with size and tracking', () => {
    expect(textWidth('AB', 4, 0.5)).toBeCloseTo(4 * (0.641 + 0.653) + 0.5, 9);
    expect(textWidth('', 4, 0.5)).toBe(0);
  });
});

it('wraps at words and shortens with an ellipsis', () => {
  const text = 'Cut away from the hand that holds';
  const lines = wrapText(text, 3, 20);
  expect(lines.join(' ')).toBe(text);
  for (const row of lines) expect(textWidth(row, 3)).toBeLessThanOrEqual(20);
  const short = shortenText(text, 3, 20);
  expect(short.endsWith('…')).toBe(true);
  expect(textWidth(short, 3)).toBeLessThanOrEqual(20);
  expect(shortenText(text, 3, 200)).toBe(text);
  expect(shortenText(text, 3, 1)).toBe('');
});

it('parts a chain of marks that is wider than its room after its dashes', () => {
  const chain = Array.from({ length: 30 }, (_, i) => 100 + i).join('–');
  const lines = wrapText(`Join ${chain} and 7–8: lines to cut.`, 3, 40);
  for (const row of lines) expect(textWidth(row, 3)).toBeLessThanOrEqual(40);
  expect(lines.join('').replaceAll(' ', '')).toBe(`Join${chain}and7–8:linestocut.`);
});
