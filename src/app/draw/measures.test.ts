import { describe, expect, it } from 'vitest';
import { isInside } from '../../core/geometry/polygon.ts';
import { add2, distance2, dot2, lerp2, scale2, sub2 } from '../../core/geometry/vector.ts';
import { type Production, produce } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { blankProject } from '../state/blank-project.ts';
import { type Json, type JsonObject, setAt } from '../state/file-path.ts';
import { netFigures } from './net-figure.ts';
import { drawTriangle } from './right-triangle.ts';
import { roofNumbers } from './roof-numbers.ts';

const roofOf = (edits: Readonly<Record<string, Json>>, thickness = 0.1) => {
  const file = Object.entries(edits).reduce<Json>(
    (now, [key, value]) => setAt(now, ['roofs', 0, key], value),
    setAt(blankProject('mm'), ['stock', 0, 'thickness'], thickness),
  );
  const resolved = resolveProject(file as JsonObject);
  if (!resolved.ok) throw new Error(resolved.issues.map((issue) => issue.message).join(' '));
  const made = (produce(resolved.value.project) as Production).roofs[0]?.made;
  const layer = made?.layers[0];
  if (made === null || made === undefined || layer === undefined) throw new Error('no roof');
  return { solid: made.solid, net: layer.net };
};

const oblong = roofOf({ body: { width: 60, depth: 41, height: 70 }, overhang: 4, shape: { rise: 52 } });
const onePiece = roofOf({
  kind: 'spire',
  body: { sides: 6, side: 20, height: 70 },
  shape: { sides: 6, rise: 80 },
  overhang: 2,
  layers: [{ as: 'shell', stock: 'paper', pieces: 'one-piece', flaps: { on: 'one-side' } }],
});

describe('measures on the drawing of a net', () => {
  it('are as long as the lines they stand at', () => {
    for (const { solid, net } of [oblong, onePiece]) {
      for (const { measures } of netFigures(solid, net)) {
        for (const { ends, length } of measures) expect(distance2(...ends)).toBeCloseTo(length, 6);
      }
    }
  });

  it('are written once for panels that are alike, and every seam has its letter on both sides', () => {
    const figures = netFigures(oblong.solid, oblong.net);
    expect(figures.map((figure) => figure.measures.length)).toEqual([4, 4, 0, 0]);
    const letters = figures.flatMap((figure) => figure.marks.map((mark) => mark.letter)).sort();
    expect(letters).toEqual(['A', 'A', 'B', 'B', 'C', 'C', 'D', 'D']);
  });

  it('that say the same are left out on the side of the number up the middle', () => {
    const figures = [oblong, onePiece].flatMap(({ solid, net }) => netFigures(solid, net));
    const sideOf = ({ measures }: (typeof figures)[number], isTwin: boolean): readonly number[] => {
      const fall = measures.find(({ kind }) => kind === 'fall');
      if (fall === undefined || !measures.some((one) => one.isTwin)) return [];
      return measures
        .filter((one) => one.kind === 'inside' && one.isTwin === isTwin)
        .map(({ ends: [a, b] }) => dot2(sub2(lerp2(a, b, 0.5), fall.ends[0]), fall.side));
    };
    expect(figures.flatMap((figure) => sideOf(figure, true)).length).toBeGreaterThan(1);
    for (const figure of figures) {
      for (const side of sideOf(figure, true)) expect(side).toBeGreaterThan(0);
      for (const side of sideOf(figure, false)) expect(side).toBeLessThan(0);
    }
  });

  it('are those of each board as it is cut: the lapped slope is shorter by the thickness where they stand at right angles', () => {
    const thickness = 2;
    const layers = [{ as: 'board', stock: 'paper', edges: 'butted' }];
    const body = { width: 90, depth: 54, height: 70 };
    const butted = roofOf({ kind: 'gable', body, overhang: 3, shape: { pitch: 45 }, layers }, thickness);
    const slopes = netFigures(butted.solid, butted.net).filter(({ piece }) => / slope$/.test(piece.title));
    const up = slopes.map(({ measures }) =>
      Math.max(0, ...measures.map(({ length, ends: [a, b] }) => (Math.abs(a[0] - b[0]) < 1e-6 ? length : 0))),
    );
    const [short = 0, long = 0] = up.sort((a, b) => a - b);
    expect(slopes).toHaveLength(2);
    // At 45° the square lower edge stops a thickness short of the outside's eave, so that its inner corner is level with it.
    expect(long).toBeCloseTo(30 * Math.SQRT2 - thickness, 6);
    expect(long - short).toBeCloseTo(thickness, 6);
  });

  it('and letters stand on the paper of a hollow panel', () => {
    const body = { width: 40, depth: 40, height: 50 };
    const broach = roofOf({ kind: 'broach-spire', body, overhang: 4, shape: { rise: 60, broachRise: 20 } });
    for (const { piece, measures, marks } of netFigures(broach.solid, broach.net)) {
      for (const { ends, side, panel } of marks)
        expect(isInside(add2(lerp2(...ends, 0.5), scale2(side, 0.2)), panel), piece.title).toBe(true);
      for (const { ends, kind } of measures)
        if (kind === 'fall') expect(isInside(lerp2(...ends, 0.5), piece.outline), piece.title).toBe(true);
    }
  });

  it('name the panels of a piece that has several', () => {
    const [figure] = netFigures(onePiece.solid, onePiece.net);
    expect(figure?.names).toHaveLength(6);
    expect(figure?.names.filter((name) => name.isBehindMeasure)).toHaveLength(1);
  });
});

describe('the numbers and the triangle', () => {
  it('obey Pythagoras', () => {
    const value = (name: string): number => {
      const found = roofNumbers(oblong.solid).find((number) => number.name === name);
      return found?.quantity === 'length' ? found.value : Number.NaN;
    };
    expect(value('Rise')).toBeCloseTo(52, 9);
    expect(Math.hypot(value('Rise'), value('Run'))).toBeCloseTo(value('Slant'), 9);
  });

  it('are drawn in proportion and inside the picture', () => {
    for (const [rise, run] of [
      [52, 24.5],
      [9, 80],
      [300, 12],
    ] as const) {
      const { width, height, eave, under, peak, other } = drawTriangle(rise, run);
      expect((under[1] - peak[1]) / (under[0] - eave[0])).toBeCloseTo(rise / run, 6);
      for (const [x, y] of [eave, under, peak, other]) {
        expect(x >= 0 && x <= width && y >= 0 && y <= height).toBe(true);
      }
    }
  });
});
