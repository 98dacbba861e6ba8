import { describe, expect, it } from 'vitest';
import { FOLDED, foldStops, layerMoment } from './stops.ts';

describe('the stops of the work', () => {
  it('end on the body where there is one layer', () => {
    expect(foldStops(['cover']).map((stop) => stop.title)).toEqual(['Flat', 'Scored', 'Folded', 'On the body']);
  });

  it('name each layer as it goes on, counting those of one kind', () => {
    const stops = foldStops(['board', 'cover', 'cover']);
    expect(stops.slice(3).map((stop) => stop.title)).toEqual(['Board on', 'Cover on', 'Cover 2 on']);
    expect(new Set(stops.map((stop) => stop.id)).size).toBe(stops.length);
    expect(stops.at(-1)?.t).toBe(1);
    expect(stops.map((stop) => stop.t)).toEqual(stops.map((stop) => stop.t).toSorted((a, b) => a - b));
  });

  it('let one layer go on after the other', () => {
    for (const t of [0, 0.1, FOLDED]) expect([0, 1].map((layer) => layerMoment(t, layer, 2))).toEqual([t, t]);
    const between = foldStops(['shell', 'cover'])[3]?.t ?? 0;
    expect([0, 1].map((layer) => layerMoment(between, layer, 2))).toEqual([1, FOLDED]);
    expect([0, 1].map((layer) => layerMoment((FOLDED + between) / 2, layer, 2))).toEqual([expect.closeTo(0.8), FOLDED]);
    expect([0, 1].map((layer) => layerMoment(1, layer, 2))).toEqual([1, 1]);
  });
});
