import { describe, expect, test } from 'vitest';
import { distance2, type Vec2 } from '../../src/core/geometry/vector.ts';
import { buildBoard } from '../../src/core/net/build-board.ts';
import type { BoardCut, Net, Piece } from '../../src/core/net/net.ts';
import type { BoardEdges, ShapeValues } from '../../src/core/project/project.ts';
import { findKind } from '../../src/core/roofs/catalogue.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { bevelChart } from './bevel-chart.ts';

const degrees = (radians: number): number => (radians * 180) / Math.PI;

function solidOf(kind: string, shape: ShapeValues): Solid {
  const built = findKind(kind)?.build(shape, null);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  return built.value;
}

function boardOf(solid: Solid, thickness: number, edges: BoardEdges): Net {
  const built = buildBoard(solid, { thickness, edges });
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

describe('the chart of saw settings, over every mitred board', () => {
  test.each(bevelChart)('%i sides at %i°: mitre %s, bevel %s', (sides, slope, mitre, bevel) => {
    const solid = solidOf('spire', { sides, acrossCorners: 200, pitch: (slope * Math.PI) / 180 });
    for (const { board } of boardOf(solid, 3, 'mitred').pieces) {
      const hips = (board as BoardCut).edges.filter(({ edge }) => solid.edges[edge]?.role === 'hip');
      expect(hips).toHaveLength(2);
      for (const hip of hips) {
        expect(hip.bevel).toBeGreaterThan(0);
        if (bevel !== null) expect(Math.abs(degrees(hip.bevel) - Number(bevel))).toBeLessThanOrEqual(tolerance(bevel));
        if (mitre !== null)
          expect(Math.abs(degrees(hip.mitre ?? 0) - Number(mitre))).toBeLessThanOrEqual(tolerance(mitre));
      }
    }
  });
});

/** Half a unit of the last digit printed, and the chart's own rounding. */
const tolerance = (printed: string): number => (printed.includes('.') ? 0.0055 : 0.51);

describe('a pyramid of board, 60 by 60 mm, 40 mm high, of 3 mm board, by hand', () => {
  // Every slope has a run of 30 and a slant of 50: sine 0.8, cosine 0.6. Two neighbours face (0, -0.8, 0.6) and (0.8, 0, 0.6): the
  // cosine between them is 0.36, so that the inside angle is 180° less 68.8998° and its half has the tangent
  // sqrt((1 + 0.36) / (1 - 0.36)) = 1.457738. The inside surfaces meet 3 / 1.457738 = 2.057983 mm in from the hip.
  const solid = solidOf('pyramid', { width: 60, depth: 60, rise: 40 });
  const inHip = 3 / Math.sqrt(1.36 / 0.64);
  // The inside comes down to the eave's level 3 · 0.6 / 0.8 = 2.25 mm up the slope.
  const inEave = 2.25;
  // A panel is 60 wide and 50 high; its sides make the angle atan(30 / 50) with the fall line, so that two lines moved in by d
  // meet d / sin of that lower.
  const sine = 30 / Math.hypot(30, 50);
  const smaller = (hip: number, eave: number): { width: number; height: number } => {
    const height = 50 - hip / sine - eave;
    return { height, width: (2 * height * 30) / 50 };
  };
  const sizeOf = (ring: readonly Vec2[]): { width: number; height: number } => {
    const [xs, ys] = [ring.map((p) => p[0]), ring.map((p) => p[1])];
    return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
  };
  const expectSize = (ring: readonly Vec2[], { width, height }: { width: number; height: number }): void => {
    expect(sizeOf(ring).width).toBeCloseTo(width, 9);
    expect(sizeOf(ring).height).toBeCloseTo(height, 9);
  };

  test('square: outside and inside are the inner triangle, 52.5 wide and 43.75 high', () => {
    const inner = smaller(inHip, inEave);
    // 2.057983 over the sine 0.514496 is 4 mm: 50 less 4 less 2.25, and six fifths of it wide.
    expect(inner.height).toBeCloseTo(43.75, 9);
    expect(inner.width).toBeCloseTo(52.5, 9);
    for (const { outline, board } of boardOf(solid, 3, 'square').pieces) {
      expectSize(outline, inner);
      expectSize(board?.outer ?? [], inner);
      expectSize(board?.inner ?? [], inner);
    }
  });

  test('mitred: the outside is the panel itself, the inside the inner triangle; + 34.450° at hips, + 36.870° at the eave', () => {
    for (const { outline, board } of boardOf(solid, 3, 'mitred').pieces) {
      expectSize(outline, { width: 60, height: 50 });
      expectSize(board?.inner ?? [], smaller(inHip, inEave));
      const bevels = (board?.edges ?? []).map(({ bevel }) => Number(degrees(bevel).toFixed(3))).sort();
      expect(bevels).toEqual([34.45, 34.45, 36.87]);
    }
  });

  test('butted: two opposite panels lap, as wide as the shape; the others end at their inner edges', () => {
    const pieces = boardOf(solid, 3, 'butted').pieces;
    // Over a blunt edge the lapped board is 3 sin of the inside angle narrower on either side.
    const under = 3 * Math.sqrt(1 - 0.36 ** 2);
    const laps = (piece: Piece): string[] => (piece.board?.edges ?? []).flatMap(({ lap }) => (lap ? [lap] : []));
    const [over, lapped] = [pieces.filter((p) => laps(p)[0] === 'over'), pieces.filter((p) => laps(p)[0] === 'under')];
    expect([over.length, lapped.length]).toEqual([2, 2]);
    for (const piece of pieces) expect(new Set(laps(piece)).size).toBe(1);
    for (const { outline } of over) expectSize(outline, smaller(0, inEave));
    for (const { outline } of lapped) expectSize(outline, smaller(under, inEave));
  });
});

test('a valley of mitred board has its bevel the other way: the inside is wider', () => {
  const solid = solidOf('cross-gable', {
    width: 120,
    depth: 100,
    rise: 30,
    wingWidth: 50,
    mainDepth: 60,
    ends: 'open',
  });
  for (const { board, outline, panels } of boardOf(solid, 2, 'mitred').pieces) {
    (board?.edges ?? []).forEach(({ edge, bevel, inner }, i) => {
      if (solid.edges[edge]?.role !== 'valley') return;
      expect(bevel).toBeLessThan(0);
      expect(inner).toBeLessThan(0);
      expect(distance2(panels[0]?.polygon[i] as Vec2, outline[i] as Vec2)).toBeGreaterThan(0);
    });
  }
});
