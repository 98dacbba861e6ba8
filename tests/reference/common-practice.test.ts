import { describe, expect, test } from 'vitest';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { Piece } from '../../src/core/net/net.ts';
import { produce } from '../../src/core/pipeline.ts';
import type { Body, ShapeValues } from '../../src/core/project/project.ts';
import { resolveProject } from '../../src/core/project/read-project.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import { measureSolid } from '../../src/core/solid/measure.ts';
import { formatMark, MM_PER_INCH, toDegrees } from '../../src/core/units/units.ts';

/** Common practice, no published source: where a maker puts the pencil along the bottom of a strip. */
const inches = (n: number): number => n * MM_PER_INCH;
const marked = (mm: number): string => formatMark(mm, '1/16in', { unit: false });

function flappedPiece(
  kind: string,
  shape: ShapeValues,
  flap: number,
  body: Body | null = null,
): { piece: Piece; panel: readonly (readonly [number, number])[]; pitch: number } {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error('no roof');
  const { net } = buildNet(built.value, {
    pieces: 'per-panel',
    flaps: { width: flap, on: 'alternate', clearance: 0.5, least: 2 },
  });
  const piece = net.pieces.find((one) => one.flaps.length === 2);
  if (!piece) throw new Error('no panel with two flaps');
  return { piece, panel: piece.panels[0]?.polygon ?? [], pitch: measureSolid(built.value).faces[0]?.pitch ?? 0 };
}

/** Strip end, base left, base right, strip end, peak: from the left, flap width first, before trimming. */
function bottomMarks({ panel }: { panel: readonly (readonly [number, number])[] }, flap: number): string[] {
  const [left, right, peak] = panel as readonly [
    readonly [number, number],
    readonly [number, number],
    readonly [number, number],
  ];
  const from = (x: number): number => flap + x - left[0];
  return [from(left[0]), from(right[0]), from(right[0]) + flap, from(peak[0])].map(marked);
}

describe('set-out lines of a flapped panel (common practice)', () => {
  const flap = inches(1 / 4);

  test('base 2 1/8, slant 3: 1/4, 2 3/8, 2 5/8, peak 1 5/16; the flap line leaves the strip 0.0152 in before the bottom', () => {
    const side = inches(2 + 1 / 8);
    const roof = flappedPiece('pyramid', { width: side, depth: side, slant: inches(3) }, flap);
    expect(bottomMarks(roof, flap)).toEqual(['1/4', '2 3/8', '2 5/8', '1 5/16']);
    // The flap's outer line is parallel to the slanted edge: at the bottom it is further out by the sine of the corner.
    const [a, b, c] = roof.panel as readonly [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ];
    const corner = Math.atan2(c[1] - b[1], b[0] - c[0]);
    expect(((flap / Math.sin(corner) - flap) / MM_PER_INCH).toFixed(4)).toBe('0.0152');
    expect(c[1] - a[1]).toBeCloseTo(inches(3), 9);
    // Before trimming the outline reaches as wide as that line does where it meets the clearance over the eave.
    for (const { polygon, panel } of roof.piece.flaps) {
      expect(panel).toBe(0);
      const out = polygon.map(([x]) => Math.max(a[0] - x, x - b[0]));
      expect(Math.max(...out)).toBeLessThan(flap / Math.sin(corner));
      expect(Math.max(...out)).toBeGreaterThan(flap * 0.75);
    }
  });

  test('base and slant 2 3/8: 1/4, 2 5/8, 2 7/8, peak 1 7/16, pitch 60°', () => {
    const side = inches(2 + 3 / 8);
    const roof = flappedPiece('pyramid', { width: side, depth: side, slant: side }, flap);
    expect(bottomMarks(roof, flap)).toEqual(['1/4', '2 5/8', '2 7/8', '1 7/16']);
    expect(toDegrees(roof.pitch)).toBeCloseTo(60, 9);
  });

  test('gable end 3 in: 1/4, 3 1/4, 3 1/2, middle 1 3/4', () => {
    const [width, depth] = [inches(3.5), inches(3)];
    const half = [inches(1.5), inches(1.5)] as const;
    const body: Body = {
      outline: [
        [-half[0], -half[1]],
        [half[0], -half[1]],
        [half[0], half[1]],
        [-half[0], half[1]],
      ],
      height: inches(3),
      rectangle: { width: inches(3), depth: inches(3) },
    };
    const roof = flappedPiece('gable', { width, depth, pitch: Math.PI / 4 }, flap, body);
    expect(bottomMarks(roof, flap)).toEqual(['1/4', '3 1/4', '3 1/2', '1 3/4']);
  });
});

/** Common practice, no published source: strips cut from a pad, two roofs to each. */
describe('two square roofs of base 2 1/8 in and slant 3 in', () => {
  const project = (direction: string, width: string, layout: Readonly<Record<string, string>> = {}) => {
    const read = resolveProject({
      format: 'spirewright-project',
      version: 1,
      title: 'Two towers',
      units: 'in',
      stock: [{ id: 'strip', width, height: '3in', direction }],
      layout,
      roofs: [
        {
          id: 'tower',
          kind: 'pyramid',
          copies: 2,
          shape: { width: '2 1/8in', depth: '2 1/8in', slant: '3in' },
          layers: [{ as: 'cover', stock: 'strip', flaps: { width: '1/4in' } }],
        },
      ],
    });
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    return produce(read.value.project, { layout: { rounds: 60 } });
  };

  test('have four panels with two flaps and four plain ones', () => {
    const pieces = project('two-way', '6in').roofs[0]?.made?.layers[0]?.net.pieces ?? [];
    expect(pieces.map(({ flaps }) => flaps.length).toSorted()).toEqual([0, 0, 2, 2]);
    for (const { height } of pieces) expect(height).toBeCloseTo(inches(3), 9);
  });

  test.each(['free', 'strips'])('need three strips 3 by 6 in that may be turned, four that may not (%s)', (cuts) => {
    expect(project('two-way', '6in', { cuts }).sheets).toHaveLength(3);
    expect(project('one-way', '6in', { cuts }).sheets).toHaveLength(4);
  });

  test.each(['free', 'strips'])('lie on one strip 3 by 12 in, heads and tails (%s)', (cuts) => {
    const { sheets, issues } = project('two-way', '12in', { cuts });
    expect(issues.filter(({ level }) => level === 'error')).toEqual([]);
    expect(sheets.map(({ placements }) => placements.length)).toEqual([8]);
  });
});
