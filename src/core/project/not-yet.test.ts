import { describe, expect, it } from 'vitest';
import page from '../../../shared/project-file.md?raw';
import { notYet } from './not-yet.ts';
import { paperSizes } from './paper-sizes.ts';
import { readProject, resolveProject } from './read-project.ts';
import { cover, gate, gateFile, type Loose, slate } from './testing/gate-file.ts';

/** A whole file with one more key, or one key changed, at the place. */
function fileWith(place: string, value: unknown): Loose {
  const parts = place.split('.');
  const key = parts[parts.length - 1] ?? '';
  const change = { [key]: value };
  switch (parts.slice(0, -1).join('.')) {
    case '':
      return gateFile(change);
    case 'page':
      return gateFile({ page: change });
    case 'stock[]':
      return gateFile({ stock: [slate(change)] });
    case 'roofs[]':
      return gateFile({ roofs: [gate(change)] });
    case 'roofs[].shape':
      return gateFile({ roofs: [gate({ shape: { width: 31, depth: 37, rise: 41, ...change } })] });
    case 'roofs[].body':
      return gateFile({ roofs: [gate({ body: { height: 53, ...change } })] });
    case 'roofs[].layers[]':
      return gateFile({ roofs: [gate({ layers: [cover(change)] })] });
    default:
      throw new Error(`No file for ${place}`);
  }
}

describe('what is settled but not yet available', () => {
  it.each(notYet.map((entry) => [entry.place, entry] as const))(
    '%s is refused, with what to do instead',
    (place, entry) => {
      const { issues } = resolveProject(fileWith(place, entry.value ?? {}));
      expect(issues).toMatchObject([{ level: 'error', code: 'not-yet', path: place.replaceAll('[]', '[0]') }]);
      expect(issues[0]?.message).toBe(`${entry.title} is not available yet.`);
      expect(issues[0]?.remedy).toBe(entry.until);
    },
  );

  it.each(notYet.map((entry) => [entry.place, entry.value]))(
    '%s (%s) stands on the page about the file',
    (place, value) => {
      expect(page).toContain(value === undefined ? `| \`${place}\` |` : `| \`${place}\` = \`${value}\` |`);
    },
  );

  it('is all that the page says is not available', () => {
    const rows = page.slice(page.indexOf('## Settled'), page.indexOf('## Later')).matchAll(/^\| `([^`]+)`/gm);
    expect([...rows].map((row) => row[1]).toSorted()).toEqual(notYet.map((entry) => entry.place).toSorted());
  });
});

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
