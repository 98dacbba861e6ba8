import { describe, expect, test } from 'vitest';
import { produceSample } from '../../io/testing/samples.ts';
import { distance2 } from '../geometry/vector.ts';
import type { Production } from '../pipeline.ts';
import type { LinePicture } from './line-picture.ts';
import { drawMoment, viewOf } from './moments.ts';

/** Without their bodies, which moments cut off at different heights. */
const bodiless = (production: Production): Production => ({
  ...production,
  roofs: production.roofs.map((roof) => ({ ...roof, spec: { ...roof.spec, body: null } })),
});

const lengthOf = ({ lines }: LinePicture): number => lines.reduce((sum, [a, b]) => sum + distance2(a, b), 0);

describe.each(['harbour-gate', 'chapel-hill', 'round-yard'])('%s', (name) => {
  const production = bodiless(produceSample(name));

  test('once all pieces are in place, the picture is that of the roof: every flap is under its panel', () => {
    production.roofs.forEach(({ made, spec }, roof) => {
      // Its ring is parted at a seam that the finished roof does not show.
      if (spec.kind === 'bell-cast-cone') return;
      const layer = (made?.layers.length ?? 1) - 1;
      const on = (made?.layers[layer]?.net.pieces ?? []).map((_, p) => p);
      const done = drawMoment(production, { kind: 'going-on', roof, layer, on, moving: [] });
      const whole = drawMoment(production, { kind: 'whole', roof });
      expect(Math.abs(lengthOf(done) - lengthOf(whole))).toBeLessThan(0.2);
    });
  });
});

test('a piece that goes on is seen from its own side', () => {
  const production = produceSample('harbour-gate');
  const view = (piece: number): string =>
    viewOf(production, { kind: 'going-on', roof: 0, layer: 0, on: [], moving: [piece] }).words;
  expect(production.roofs[0]?.made?.layers[0]?.net.pieces.map(({ id }) => id)).toEqual([
    'south',
    'east',
    'north',
    'west',
  ]);
  expect([0, 1, 2, 3].map(view)).toEqual(['the front right', 'the front right', 'the back right', 'the front left']);
});

test('a gable that is folded by itself shows all of its own edges', () => {
  const production = produceSample('harbour-gate');
  const pieces = production.roofs[2]?.made?.layers[0]?.net.pieces ?? [];
  const piece = pieces.findIndex(({ id }) => id === 'east');
  const { lines } = drawMoment(production, { kind: 'folding', roof: 2, layer: 0, piece });
  const corners = lines.map((line) => line.map((p) => p.map((x) => x.toFixed(2)).join()));
  const at = (corner: string): readonly string[] =>
    corners.filter((ends) => ends.includes(corner)).flatMap((ends) => ends.filter((end) => end !== corner));
  const isTriangle = ([a = '', b = '']: readonly string[]): boolean => at(a).some((c) => at(b).includes(c));
  expect(pieces[piece]?.panels[0]?.polygon).toHaveLength(3);
  expect(corners.some(isTriangle)).toBe(true);
});
