import { describe, expect, test } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import type { Result } from '../issue.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { checkSolid } from '../solid/check-solid.ts';
import type { Solid } from '../solid/solid.ts';
import { insideOf, layerSolids, wallSeat } from './layer-solids.ts';
import { settleWalls } from './settle-walls.ts';
import type { StackedLayer } from './stack.ts';

/** Where the corners of a face lie, y and level, in the order of its loop from its lowest on the south side. */
function corners(
  kind: string,
  shape: ShapeValues,
  stack: readonly StackedLayer[],
  face: string,
): readonly number[][][] {
  const body = rectangularBody(50, 48, 30);
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const inside = insideOf(built.value, stack);
  if (!inside.ok) throw new Error(JSON.stringify(inside.issues));
  return layerSolids(built.value, stack, wallSeat(built.value, inside.value, body)).map((made) => {
    if (!made.ok) throw new Error(JSON.stringify(made.issues));
    const { vertices, faces } = made.value as Solid;
    return (faces.find(({ id }) => id === face)?.loop ?? []).map((v) => (vertices[v] ?? []).slice(1));
  });
}

const near = (points: readonly (readonly number[])[]): unknown[] =>
  points.map((p) => p.map((x) => expect.closeTo(x, 9)));

describe('a gable wall set back 5 mm under board of 2 mm', () => {
  const stack = [
    { as: 'board', thickness: 2 },
    { as: 'cover', thickness: 1 },
  ] as const;

  // Depth 56, rise 21: runs of 28, slants of 35. The walls of the body stand 4 mm in, where the roof is 4 · 21 / 28 = 3 high. Its
  // underside lies 2 · 35 / 28 = 2.5 lower: the wall begins at 0.5 and ends at 18.5, as high as before.
  test('of equal pitches goes down by thickness over the cosine of the pitch, as it is', () => {
    const wall = near([
      [-24, 0.5],
      [24, 0.5],
      [0, 18.5],
    ]);
    const shape = { width: 60, depth: 56, rise: 21, ridge: 'along-width' };
    // The paper on the wall ends under the same board.
    expect(corners('gable', shape, stack, 'east')).toEqual([wall, wall]);
  });

  // Runs of 40 and 16 at a rise of 30: slants of 50 and 34. At the walls the roof is 3 and 7.5 high; its underside lies 2 · 50 / 40 = 2.5
  // and 2 · 34 / 16 = 4.25 lower, at 0.5 and 3.25. Its undersides meet where 0.75 (y + 28) - 2.5 = 1.875 (28 - y) - 4.25, at
  // y = 11 1/3, 27 high. So the wall is 26.5 high in place of 27, and 2.75 in place of 4.5 at the back.
  test('of unlike pitches is cut anew', () => {
    const wall = near([
      [-24, 0.5],
      [24, 0.5],
      [24, 3.25],
      [34 / 3, 27],
    ]);
    const shape = { width: 60, depth: 56, rise: 30, ridgeOffset: 12 };
    expect(corners('saltbox', shape, stack, 'east')).toEqual([wall, wall]);
  });

  test('in card of 0.8 mm ends at the inside of the card, 0.4 mm under its middle', () => {
    // The underside lies 0.8 · 35 / 28 = 1 lower than the shape.
    const wall = near([
      [-24, 2],
      [24, 2],
      [0, 20],
    ]);
    const shape = { width: 60, depth: 56, rise: 21, ridge: 'along-width' };
    expect(corners('gable', shape, [{ as: 'shell', thickness: 0.8 }], 'east')).toEqual([wall]);
  });
});

test('below the valley of a sawtooth the walls of two teeth share an upright edge down to where the roof rests', () => {
  // Three teeth of 42 mm at 0.45 rad under card of 0.5 mm: the inside of the upright glazing lies 0.5 mm before it, that of the next
  // slope 0.5 / cos 0.45 lower, so that they meet 0.5 / cos 0.45 + 0.5 tan 0.45 below the valley, where the roof rests. The middle of
  // the card, to which it is cut, meets half as far below.
  const shape = { width: 104, depth: 126, teeth: 3, pitch: 0.45, glazingPitch: Math.PI / 2, ends: 'walls' };
  const built = findKind('sawtooth')?.build(shape, null);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const stack = [{ as: 'shell', thickness: 0.5 }] as const;
  const inside = insideOf(built.value, stack);
  if (!inside.ok) throw new Error(JSON.stringify(inside.issues));
  const seat = wallSeat(built.value, inside.value, null);
  const depth = 0.5 / Math.cos(0.45) + 0.5 * Math.tan(0.45);
  expect(seat).toEqual({ level: 0, drop: expect.closeTo(depth, 9) });
  const [made] = layerSolids(built.value, stack, seat);
  if (!made?.ok) throw new Error(JSON.stringify(made?.issues));
  const { faces, edges } = made.value;
  const wall = (id: string): number => faces.findIndex((face) => face.id === id);
  const shared = edges.find((edge) => ['east-wall-1', 'east-wall-2'].every((id) => edge.faces.includes(wall(id))));
  // Its foot stays under the valley of the shape; its head has come 0.25 mm before it.
  expect(shared?.length).toBeCloseTo(Math.hypot(depth / 2, 0.25), 9);
  expect(checkSolid(made.value, { isLayer: true })).toEqual([]);
});

test('a wall that comes to end under the slope round the corner meets it as it meets its own', () => {
  // The upper roof falls 10 over 3.8 to the south and 10 over 8.7 to the sides: under board of 0.5 mm its southern underside comes
  // down further, and cuts the tops of the side walls off at their corners.
  const lower = {
    kind: 'lean-to-half-spire',
    shape: { sides: 6, width: 115, pitch: 0.47, cut: 'corners', back: 'open' },
  };
  const upper = {
    kind: 'lean-to-half-pyramid',
    shape: { rise: 10, peakX: 0, back: 'wall' },
    overhang: { eave: 0.1, verge: 0.1 },
  };
  const wall = { outline: rectangularBody(17.2, 7.4, 1).outline, height: 1, rectangle: { width: 17.2, depth: 7.4 } };
  const built = findKind('two-tier')?.build({ lower, wall, upper }, null);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const [made] = layerSolids(built.value, [{ as: 'board', thickness: 0.5 }], null);
  if (!made?.ok) throw new Error(JSON.stringify(made?.issues));
  expect(checkSolid(made.value, { isLayer: true })).toEqual([]);
  const { faces, edges } = made.value;
  const met = edges.filter(({ role, faces: [wall = -1] }) => role === 'abutment' && faces[wall]?.id === 'wall-east');
  expect(met.map(({ faces: [, slope = -1] }) => faces[slope]?.id)).toEqual([
    'lower-south',
    'upper-east',
    'upper-south',
  ]);
});

test('walls that cannot end at the underside of a roof so thick are told how thick it can be', () => {
  // The wall is 18 high, and each mm in from the slopes lowers it by 35 / 28: at 14.4 mm nothing is left of it.
  const shape = { width: 60, depth: 56, rise: 21, ridge: 'along-width' };
  const built = findKind('gable')?.build(shape, rectangularBody(50, 48, 30));
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const settle = (head: number): Result<Solid> => settleWalls(built.value, { head, foot: 0 }, null);
  const thick = settle(30);
  const most = thick.issues[0]?.numbers?.['most'] ?? 0;
  expect(thick.ok).toBe(false);
  expect(most).toBeGreaterThan(14.39);
  expect(most).toBeLessThan(14.4);
  expect(settle(most).ok).toBe(true);
  expect(settle(most + 0.01).ok).toBe(false);
});

describe('layers over walls are sound solids', () => {
  const layersOf = (kind: string, shape: ShapeValues, body: Body | null, stack: readonly StackedLayer[]): unknown[] => {
    const built = findKind(kind)?.build(shape, body);
    if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
    const inside = insideOf(built.value, stack);
    const seat = inside.ok ? wallSeat(built.value, inside.value, body) : null;
    return layerSolids(built.value, stack, seat).map((made) =>
      made.ok ? checkSolid(made.value, { isLayer: true }) : made.issues,
    );
  };

  test('where the foot of a wall comes to lie within a millionth of a millimetre of the break beside it', () => {
    const shape = { width: 55.75, depth: 351.39449245816854, upperPitch: 0.20194883567865962, breakRise: 14.5 };
    const slopes = { ...shape, lowerPitch: 1.5358897417550073, ridge: 'along-depth', ends: 'walls' };
    const stack = [
      { as: 'shell', thickness: 0.48419332873845455 },
      { as: 'cover', thickness: 0.3000518615659592 },
    ] as const;
    const body = rectangularBody(48.70504156012528, 351.39449245816854, 5);
    expect(layersOf('gambrel', slopes, body, stack)).toEqual([[], []]);
  });

  test('where a gable goes out past the end of the eave beside it', () => {
    const corners = [
      [40.75, -89.07],
      [103.12, -89.07],
      [112.21, 47.7],
      [-54.2, 89.07],
      [-85.84, 56.5],
      [-112.21, 28.9],
      [-79.27, -55.14],
      [-73.2, -47.56],
    ];
    const pitches = { south: 'gable', east: 'gable', 'north-west-2': 'gable' } as const;
    const shape = { corners, pitches, rise: 13.65, ends: 'walls' } as unknown as ShapeValues;
    const stack = [
      { as: 'board', thickness: 0.5 },
      { as: 'shell', thickness: 0.2 },
      { as: 'cover', thickness: 0.1 },
    ] as const;
    expect(layersOf('hip-and-valley', shape, null, stack)).toEqual([[], [], []]);
  });

  // A vault 60 wide over a body 50 wide and as deep: its walls come down along the free ends of the vault.
  const vault = { width: 60, depth: 48, rise: 20, ridge: 'along-depth', ends: 'walls' };
  const card = [{ as: 'shell', thickness: 0.5 }] as const;

  test('where a wall comes down along a vault, and the samples of both its curves go with it', () => {
    const built = findKind('barrel')?.build(vault, rectangularBody(50, 48, 30));
    if (!built?.ok) throw new Error('no vault');
    const [foot = Number.NaN] = built.value.edges.flatMap(({ role, ends: [v] }) =>
      role === 'foot' ? [built.value.vertices[v]?.[2] ?? Number.NaN] : [],
    );
    // Down a little, and all the way to the eave, where nothing is left of the free ends.
    for (const [drop, verges] of [
      [1, 4],
      [foot, 0],
    ] as const) {
      const made = layerSolids(built.value, card, { level: foot, drop })[0];
      if (!made?.ok) throw new Error(JSON.stringify(made?.issues));
      expect(checkSolid(made.value, { isLayer: true })).toEqual([]);
      expect(made.value.edges.filter(({ role, faces }) => role === 'verge' && faces.length === 1)).toHaveLength(verges);
      const { roll } = made.value.faces.find((face) => face.roll) as Solid['faces'][number];
      const along = (roll?.rulings ?? []).map(([, low]) => roll?.flat[low]?.[1] ?? Number.NaN);
      for (const [i, y] of along.entries()) if (i > 0) expect(y).toBeGreaterThan(along[i - 1] as number);
    }
  });
});
