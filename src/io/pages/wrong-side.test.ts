import { describe, expect, it } from 'vitest';
import { turnOver } from '../drawing/drawing.ts';
import { a4, pyramidOn } from '../testing/pyramid.ts';
import { drawPages } from './draw-pages.ts';

describe('pages for both sides', () => {
  const production = pyramidOn(a4);
  const plain = drawPages(production);
  const both = drawPages({ ...production, project: { ...production.project, page: { ...a4, marks: 'both' } } });

  it('follow each other: the same lines, mirrored, with mountain and valley swapped', () => {
    expect(both.map(({ isWrongSide = false }) => isWrongSide)).toEqual(plain.flatMap(() => [false, true]));
    both.forEach(({ work }, i) => {
      if (i % 2 === 0) return;
      const front = plain[(i - 1) / 2]?.work;
      expect(turnOver(work, a4.width).strokes.map(({ role }) => role)).toEqual(front?.strokes.map(({ role }) => role));
      work.strokes.forEach(({ role, points }, k) => {
        const own = front?.strokes[k];
        if (own?.role.startsWith('fold')) expect(role).not.toBe(own.role);
        points.forEach(([x, y], j) => {
          expect([a4.width - x, y]).toEqual([expect.closeTo(own?.points[j]?.[0] ?? 0, 9), own?.points[j]?.[1]]);
        });
      });
    });
  });

  it('carry all letters and names on the wrong side, and on the printed side none but those on flaps', () => {
    both.forEach(({ work }, i) => {
      if (i % 2 === 0) expect(work.labels.every(({ text }) => /^[A-Z]+$/.test(text))).toBe(true);
      else expect(work.labels.map(({ text }) => text)).toEqual(plain[(i - 1) / 2]?.work.labels.map(({ text }) => text));
    });
    expect(both[0]?.work.labels.length).toBeLessThan(plain[0]?.work.labels.length ?? 0);
  });

  it('say which side is up', () => {
    const words = (page: number): string => (both[page]?.frame.labels ?? []).map(({ text }) => text).join(' ');
    expect(words(0)).toContain('the printed side');
    expect(words(1)).toContain('The wrong side, seen from the inside: mirrored, mountain and valley swapped');
    expect(words(1)).toContain('for the back of page 1');
  });
});
