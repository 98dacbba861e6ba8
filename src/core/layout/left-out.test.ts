import { describe, expect, test } from 'vitest';
import type { LayoutJob } from './job.ts';
import type { PieceToLay } from './layout.ts';
import { leftOutIssues } from './left-out.ts';
import { bestLayout } from './search-layout.ts';
import { jobOf, panel, paper, pieceOf } from './testing/arbitrary-job.ts';
import { rectangle } from './usable.ts';

const issuesOf = (job: LayoutJob, splits: Parameters<typeof leftOutIssues>[2] = () => []) =>
  leftOutIssues(job, bestLayout(job, { rounds: 0 }), splits);

describe('a piece that is too large', () => {
  test('is named once for all its copies, with how much is missing and a standard size that has room', () => {
    const copies = [0, 1, 2].map((copy) => ({ ...panel(0, 190, 90), copy }));
    const [issue, ...others] = issuesOf(jobOf([...copies, panel(1, 50, 50)], [paper(160, 100)]));
    expect(others).toEqual([]);
    expect(issue).toMatchObject({
      code: 'piece-too-large',
      path: 'roofs[0].layers[0]',
      numbers: { width: 190, height: 90, sheetWidth: 160, sheetHeight: 100, over: 30 },
      // A5 is 148 by 210: on its side it has room.
      remedy: 'Take a larger sheet: A5 on its side has room.',
    });
  });

  test('is to be parted at the seam that leaves two parts that fit', () => {
    const splits = () => [
      {
        edge: 'hip-south-east',
        parts: [
          [170, 90],
          [60, 90],
        ] as const,
      },
      {
        edge: 'hip-east-north',
        parts: [
          [100, 90],
          [120, 90],
        ] as const,
      },
    ];
    const [issue] = issuesOf(jobOf([panel(0, 190, 90)], [paper(160, 100)]), splits);
    expect(issue?.remedy).toContain('Cut it along hip-east-north, so that both parts fit, or take a larger sheet');
    const [none] = issuesOf(jobOf([panel(0, 900, 9000)], [paper(60, 60)]), splits);
    expect(none?.remedy).toBe(
      'Take a larger sheet: none of the standard sizes has room, or cut the roof in more pieces.',
    );
  });

  test('counts the margin, and paper that may be turned', () => {
    const over = (more: Parameters<typeof paper>[2]): number | undefined =>
      issuesOf(jobOf([panel(0, 40, 100)], [paper(100, 60, more)]))[0]?.numbers?.['over'];
    expect(over({})).toBe(40);
    expect(over({ direction: 'any' })).toBeUndefined();
    expect(over({ direction: 'any', margin: 1 })).toBe(2);
  });

  test('in an offcut is told by its outline', () => {
    const outline = [
      [0, 0],
      [100, 0],
      [0, 100],
    ] as const;
    const [issue] = issuesOf(jobOf([panel(0, 80, 80)], [paper(100, 100, { outline, count: 1 })]));
    expect(issue?.code).toBe('piece-too-large');
    expect(issue?.message).toContain('the outline of Slate has no room for it');
  });
});

describe('too little paper', () => {
  test('says how many pieces and how many more sheets', () => {
    const pieces = [0, 1, 2, 3, 4].map((i) => panel(i, 50, 50));
    const [issue, ...others] = issuesOf(jobOf(pieces, [paper(110, 60, { count: 1 })]));
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ code: 'stock-too-small', numbers: { sheetsCount: 1, piecesCount: 3, moreCount: 2 } });
    expect(issue?.remedy).toBe('Add {moreCount} more sheets of it, or give the layer a second stock.');
  });

  test('counts the sheets of an offcut by its outline', () => {
    // Half a square of 100: one panel has room in its corner, and no second one beside it.
    const outline = [
      [0, 0],
      [100, 0],
      [0, 100],
    ] as const;
    const counted = (pieces: readonly PieceToLay[]) =>
      issuesOf(jobOf(pieces, [paper(100, 100, { outline, count: 1 })]))[0]?.numbers;
    expect(counted([0, 1, 2].map((i) => panel(i, 60, 60)))).toMatchObject({ piecesCount: 2, moreCount: 2 });
    // Of thirteen and more too: these fill less than half of an offcut.
    const small = Array.from({ length: 15 }, (_, i) => panel(i, i === 0 ? 66 : 20, i === 0 ? 66 : 16));
    expect(counted(small)).toMatchObject({ moreCount: 1 });
  });

  test('says so where a longer search in an offcut may come to fewer sheets', () => {
    const outline = [
      [0, 0],
      [100, 0],
      [100, 60],
      [60, 100],
      [0, 100],
    ] as const;
    const remedyOf = (side: number) => {
      const pieces = [0, 1, 2].map((i) => pieceOf(i, rectangle(0, 0, side, side)));
      return issuesOf(jobOf(pieces, [paper(100, 100, { outline, count: 1 })]))[0]?.remedy;
    };
    // Of 9200 mm², a square of 60 leaves more than another one fills.
    expect(remedyOf(60)).toMatch(/^Add up to {moreCount} more sheets of it/);
    expect(remedyOf(70)).toMatch(/^Add {moreCount} more sheets of it/);
  });

  test('names one piece by its title', () => {
    const [issue] = issuesOf(jobOf([panel(0, 50, 50), panel(1, 50, 50)], [paper(60, 60, { count: 1 })]));
    expect(issue?.message).toBe('Panel 1 of copy {copyCount} finds no room on the {sheetsCount} sheet of Slate.');
    expect(issue?.numbers).toMatchObject({ copyCount: 1, moreCount: 1 });
  });
});
