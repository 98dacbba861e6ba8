import { describe, expect, it } from 'vitest';
import { resolveProject } from './read-project.ts';
import { gate, gateFile, type Loose } from './testing/gate-file.ts';

const bodyOf = (body: Loose, file: Loose = {}) => {
  const result = resolveProject(gateFile({ units: 'mm', roofs: [gate({ body: { height: 70, ...body } })], ...file }));
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return { body: result.value.project.roofs[0]?.body, issues: result.issues };
};

describe('a measured body', () => {
  it('is centred, its first side to the south, at model size', () => {
    const { body } = bodyOf({
      corners: [
        [100, 100],
        [100, 180],
        [40, 180],
        ['4cm', 110],
      ],
    });
    expect(body?.rectangle).toBeNull();
    // Turned a quarter: what ran up the right side runs along the front.
    expect(body?.outline).toEqual([
      [-40, -30],
      [40, -30],
      [40, 30],
      [-30, 30],
    ]);
    const half = bodyOf({ lengths: [30, 40, 50] }, { scale: 0.5 }).body;
    expect(half?.outline[0]).toEqual([-7.5, -10]);
  });

  it('is a rectangle where its corners are square', () => {
    const plain = bodyOf({ width: 40, depth: 30 }).body;
    const square = bodyOf({ lengths: [40, 30, 40, 30], diagonal: 50 }).body;
    expect(square?.rectangle?.width).toBeCloseTo(40, 9);
    expect(square?.rectangle?.depth).toBeCloseTo(30, 9);
    expect(plain?.outline).toEqual(square?.outline.map((p) => p.map((x) => Number(x.toFixed(9)))));
  });

  it('is closed evenly where it misses its start by a mark, and that is noted', () => {
    const { issues } = bodyOf({ lengths: [60, 60, 60, 60.8], angles: [90, 90, 90, 90] });
    expect(issues).toMatchObject([{ level: 'note', code: 'closed-evenly', path: 'roofs[0].body.lengths' }]);
    expect(issues[0]?.message).toBe(
      'The measured sides miss their start by 0.8 mm; that was spread evenly over all of them.',
    );
  });

  it('has its courts measured from the first corner where there are no others', () => {
    const court = [
      [10, 10],
      [20, 10],
      [20, 20],
    ];
    const expected = [
      [
        [-20, -20],
        [-10, -20],
        [-10, -10],
      ],
    ];
    expect(bodyOf({ width: 60, depth: 60, courts: [court] }).body?.courts).toEqual(expected);
    expect(bodyOf({ sides: 4, side: 60, courts: [court] }).body?.courts).toMatchObject([[{}, {}, {}]]);
    expect(bodyOf({ width: 60, depth: 60 }).body).not.toHaveProperty('courts');
  });
});
