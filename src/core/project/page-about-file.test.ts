import { describe, expect, it } from 'vitest';
import page from '../../../shared/project-file.md?raw';
import { paperSizes } from './paper-sizes.ts';
import { readProject } from './read-project.ts';

describe('the page about the file', () => {
  it('shows a file that reads', () => {
    const example = /```json\n([\s\S]*?)```/.exec(page)?.[1] ?? '';
    expect(readProject(example).issues).toEqual([]);
  });
});

describe('paper sizes', () => {
  it('are portrait, each with its own name', () => {
    expect(new Set(paperSizes.map((size) => size.name)).size).toBe(paperSizes.length);
    for (const { name, width, height } of paperSizes) expect(width, name).toBeLessThanOrEqual(height);
  });

  it.each(['A', 'B'])('ISO %s: each is half of the one before, rounded down (ISO 216)', (series) => {
    const sizes = paperSizes.filter((size) => size.series === `ISO ${series}`);
    expect(sizes).toHaveLength(11);
    sizes.slice(1).forEach((size, i) => {
      expect(size.name).toBe(`${series}${i + 1}`);
      expect([size.width, size.height]).toEqual([Math.floor((sizes[i]?.height ?? 0) / 2), sizes[i]?.width]);
    });
  });

  it('Letter and Legal are 8 1/2 in wide (ANSI/ASME Y14.1 and trade practice)', () => {
    const mm = (name: string) =>
      paperSizes.filter((size) => size.name === name).map(({ width, height }) => [width, height]);
    expect(mm('Letter')[0]?.[0]).toBeCloseTo(215.9, 9);
    expect(mm('Letter')[0]?.[1]).toBeCloseTo(279.4, 9);
    expect(mm('Legal')[0]?.[1]).toBeCloseTo(355.6, 9);
  });
});
