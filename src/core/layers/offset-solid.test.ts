import { describe, expect, test } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import type { Body, ShapeValues } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { checkSolid } from '../solid/check-solid.ts';
import type { Solid } from '../solid/solid.ts';
import { insideOf, layerSolids, wallSeat } from './layer-solids.ts';
import { offsetSolid } from './offset-solid.ts';
import { layerOffsets } from './stack.ts';
import { tooThick } from './too-thick.ts';

function solidOf(kind: string, shape: ShapeValues, body: Body | null = null): Solid {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  return built.value;
}

function moved(solid: Solid, by: number): Solid {
  const result = offsetSolid(solid, by);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

/** The surface of card or paper so far outside a shape on its body, or inside it: the middle of what is twice as thick. */
function layerAt(solid: Solid, by: number, body: Body): Solid {
  const stack = [{ as: by < 0 ? ('shell' as const) : ('cover' as const), thickness: 2 * Math.abs(by) }];
  const inside = insideOf(solid, stack);
  const [result] = layerSolids(solid, stack, inside.ok ? wallSeat(solid, inside.value, body) : null);
  if (!result?.ok) throw new Error(JSON.stringify(result?.issues));
  return result.value;
}

describe('an offset pyramid', () => {
  // Plan 60 by 40, rise 50, 2 mm out. A slope of run r goes up at its eave by 2 sqrt(r² + 50²) / r over the same point: the slopes
  // of run 30 by 3.8873 mm, those of run 20 by 5.3852 mm. They meet their opposites 1.4979 mm apart in height.
  const solid = solidOf('pyramid', { width: 60, depth: 40, rise: 50 });

  test('of unequal pitches parts at its peak, and says by how much', () => {
    const result = offsetSolid(solid, 2);
    const east = (2 * Math.hypot(30, 50)) / 30;
    const south = (2 * Math.hypot(20, 50)) / 20;
    expect(result.issues).toMatchObject([{ level: 'note', code: 'peak-parted' }]);
    expect(result.issues[0]?.numbers?.['apart']).toBeCloseTo(south - east, 9);
    expect((south - east).toFixed(2)).toBe('1.50');
    if (!result.ok) return;
    // The lower pair makes the ridge, as long as the other takes to come down to it: 2 · 1.4979 · 20 / 50.
    const ridge = result.value.edges.find(({ role }) => role === 'ridge');
    expect(ridge?.id).toBe('ridge-east-west');
    expect(ridge?.length).toBeCloseTo((2 * (south - east) * 20) / 50, 9);
    expect(Math.max(...result.value.vertices.map((v) => v[2]))).toBeCloseTo(50 + east, 9);
    expect(result.value.vertices.filter((v) => v[2] === 0)).toHaveLength(4);
    // Its edges are the pyramid's own, and the ridge.
    expect(result.value.edges.slice(0, -1).map(({ id, role }) => [id, role])).toEqual(
      solid.edges.map(({ id, role }) => [id, role]),
    );
  });

  test('of equal pitches keeps one peak, 2 / cos of the pitch higher, over an eave 2 / sin of it farther out', () => {
    // Plan 40 by 40, rise 30: the slant is 36.0555.
    const square = moved(solidOf('pyramid', { width: 40, depth: 40, rise: 30 }), 2);
    const slant = Math.hypot(20, 30);
    expect(square.vertices).toHaveLength(5);
    expect(Math.max(...square.vertices.map((v) => v[2]))).toBeCloseTo(30 + (2 * slant) / 20, 9);
    expect(Math.max(...square.vertices.map((v) => v[0]))).toBeCloseTo(20 + (2 * slant) / 30, 9);
  });

  test('comes back when it is moved back', () => {
    const back = moved(moved(solid, 2), -2);
    expect(back.vertices).toHaveLength(5);
    expect(back.edges.map(({ id }) => id)).toEqual(solid.edges.map(({ id }) => id));
  });

  test('of no thickness is itself', () => {
    expect(moved(solid, 0)).toBe(solid);
  });

  test('inwards by more than it holds is refused, with how far it can go', () => {
    // The slopes of run 20 meet at the eave's level once they have come in by 50 · 20 / sqrt(20² + 50²) = 18.57 mm.
    const result = offsetSolid(solid, -30);
    expect(result.ok).toBe(false);
    expect(result.issues[0]).toMatchObject({ code: 'layer-too-thick', level: 'error' });
    const most = result.issues[0]?.numbers?.['most'] ?? 0;
    expect(most).toBeGreaterThan(10);
    expect(most).toBeLessThan((50 * 20) / Math.hypot(20, 50) + 1e-9);
  });
});

test('a wall that would run into the panel across its valley is refused', () => {
  // Teeth of 2.5 mm, 10 mm high: moved out by 0.186 mm each valley rises by 1.5 mm, and the walls below it cross.
  const shape = { width: 32, depth: 10, rise: 10, teeth: 4, glazingPitch: 1.35, ends: 'walls' };
  expect(offsetSolid(solidOf('sawtooth', shape), 0.05).ok).toBe(false);
  const result = offsetSolid(solidOf('sawtooth', shape), 0.186);
  expect(result.issues[0]).toMatchObject({ code: 'layer-too-thick', level: 'error' });
});

test('an offset cone is the cone of the same pitch over the same eave plane', () => {
  // Diameter 60, rise 40: the slant is 50, so that 1 mm out the radius grows by 50 / 40 and the rise by 50 / 30.
  const cone = moved(solidOf('cone', { diameter: 60, rise: 40 }), 1);
  expect(Math.max(...cone.vertices.map((v) => v[2]))).toBeCloseTo(40 + 50 / 30, 9);
  expect(Math.max(...cone.vertices.map((v) => Math.hypot(v[0], v[1])))).toBeCloseTo(30 + 50 / 40, 9);
  expect(cone.faces[0]?.roll?.surface).toMatchObject({ form: 'cone' });
  expect(cone.faces[0]?.roll?.deviation).toBeLessThanOrEqual(0.01);
});

test('an offset vault is rolled on the larger radius about the same axis, down to the same level', () => {
  // Span 60, rise 20: the radius is 60² / 160 + 10 = 32.5 about an axis 12.5 below the eave.
  const vault = moved(solidOf('barrel', { width: 80, depth: 60, rise: 20, ends: 'open' }), 1.5);
  expect(vault.faces[0]?.roll?.surface).toMatchObject({ form: 'cylinder', radius: 34 });
  expect(Math.max(...vault.vertices.map((v) => v[2]))).toBeLessThanOrEqual(21.5);
  expect(Math.max(...vault.vertices.map((v) => v[1]))).toBeCloseTo(Math.sqrt(34 ** 2 - 12.5 ** 2), 6);
});

describe('layers of a stack', () => {
  test('innermost: board to its outside, a shell to its middle, a cover on the shape', () => {
    expect(layerOffsets([{ as: 'board', thickness: 2 }])).toEqual([0]);
    expect(layerOffsets([{ as: 'shell', thickness: 0.5 }])).toEqual([-0.25]);
    expect(layerOffsets([{ as: 'cover', thickness: 0.6 }])).toEqual([0.3]);
  });

  test('further ones lie on those under them', () => {
    const stack = [
      { as: 'board', thickness: 2 },
      { as: 'shell', thickness: 0.5 },
      { as: 'cover', thickness: 0.3 },
    ] as const;
    expect(layerOffsets(stack)).toEqual([0, 0.25, 0.65]);
    expect(
      layerOffsets([
        { as: 'cover', thickness: 0.6 },
        { as: 'cover', thickness: 0.4 },
      ]),
    ).toEqual([0.3, 0.8]);
  });
});

test('an eave that a wall carries ends where the wall round the corner has moved to', () => {
  // The back eave of this saltbox lies on the body's back wall over half of its length. Every wall goes out by 1 mm, and so does
  // the eave on it; its free ends keep their level, farther out: the lip between begins 1 mm beyond the end wall's old place.
  const body = {
    outline: [
      [-12, -5],
      [12, -5],
      [12, 5],
      [-12, 5],
    ],
    height: 5,
    rectangle: { width: 24, depth: 10 },
  } as const;
  const shape = { width: 48, depth: 10, slant: 12, ridgeOffset: 0, backPitch: 0.9, ends: 'walls' };
  const built = findKind('saltbox')?.build(shape, body);
  if (!built?.ok) throw new Error(JSON.stringify(built?.issues));
  const out = moved(built.value, 1);
  expect(checkSolid(out, { isLayer: true })).toEqual([]);
  const carried = out.edges.find(({ id }) => id === 'eave-north-north-wall');
  expect(carried?.ends.map((v) => out.vertices[v]?.[0]).sort()).toEqual([-13, 13]);
  const wall = out.faces.find(({ id }) => id === 'north-wall');
  expect(wall?.loop).toHaveLength(4);
});

test('a layer over a round roof keeps the samples of its curves, its radius being a little larger', () => {
  const cone = solidOf('cone', { diameter: 92, pitch: 0.6 });
  for (const by of [0.15, 0.5, 2]) expect(moved(cone, by).vertices).toHaveLength(cone.vertices.length);
});

test('a roof that is refused whatever the thickness says so, not that nothing is possible at most', () => {
  const told = (most: number): string =>
    tooThick(solidOf('pyramid', { width: 60, depth: 40, rise: 50 }), 0, most, -0.5).message;
  expect(told(0.3)).toMatch(/^The layers are too thick .* At most \{most\} is possible\.$/);
  expect(told(0.0001)).toMatch(/^This roof takes no layer that has a thickness: .*, as it would with any\.$/);
});

describe('crossing gables whose ridges meet in one point', () => {
  // Main slopes run 40 and rise 30, those of the wings run 22.5: moved by 0.6 the main ridge goes 0.6 · 50 / 40 = 0.75 up or down,
  // that of the wings 0.6 · 37.5 / 22.5 = 1.
  const solid = solidOf('cross-gable', { width: 112, depth: 80, rise: 30, wingWidth: 45 });

  test('inwards: the wings end against the main roof, at 0.25 / (3/4) before its ridge', () => {
    const inside = moved(solid, -0.6);
    expect(checkSolid(inside, { isLayer: true })).toEqual([]);
    expect(cornersOf(inside, 'south-wing-west')).toEqual(near([0, -1 / 3, 29]));
    expect(cornersOf(inside, 'north-east')).toEqual(near([0, 0, 29.25], [0, 1 / 3, 29]));
    expect(cornersOf(inside, 'south-west')).toHaveLength(5);
  });

  test('outwards: the main roof ends against the wings, at 0.25 / (4/3) beside their ridge', () => {
    const outside = moved(solid, 0.6);
    expect(checkSolid(outside, { isLayer: true })).toEqual([]);
    expect(cornersOf(outside, 'north-wing-west')).toEqual(near([0, 0, 31], [-3 / 16, 0, 30.75]));
    expect(cornersOf(outside, 'south-east')).toEqual(near([3 / 16, 0, 30.75]));
  });
});

/** Corners of a face, mm. */
const cornersOf = ({ vertices, faces }: Solid, id: string): readonly number[][] =>
  (faces.find((face) => face.id === id)?.loop ?? []).map((v) => [...(vertices[v] ?? [])]);

const near = (...places: readonly number[][]): unknown =>
  expect.arrayContaining(places.map((place) => place.map((x) => expect.closeTo(x, 9))));

describe('a wing that ends flush with the eave it crosses', () => {
  // Slopes rise 3 in 4, so that their normals rise 0.8 and lean 0.6: 0.6 mm out, eaves go out by 1 and ridges up by 0.75. The wing
  // goes out as far as the eave, and still reaches the main slope where it did.
  const shape = { width: 120, depth: 80, rise: 30, wingWidth: 40, wingRise: 15 };
  const body = rectangularBody(110, 70, 50);
  const solid = solidOf('cross-gable', shape, body);

  test.each([
    ['out', 1],
    ['in', -1],
  ])('ends flush with it when it is moved %s', (_, way) => {
    const layer = layerAt(solid, 0.6 * way, body);
    expect(checkSolid(layer, { isLayer: true })).toEqual([]);
    const high = 15 + 0.75 * way;
    const wing = cornersOf(layer, 'south-wing-west');
    expect(wing).toHaveLength(3);
    expect(wing).toEqual(near([-20 - way, -40 - way, 0], [0, -40 - way, high], [0, -20, high]));
  });
});

test.each([0.5, -0.5])('teeth beyond the end of a body with which they are flush move with its walls, by %s', (by) => {
  // Four teeth over 80 mm, a body under the middle 40 of them: its walls and every tooth go out or in from 30.
  const body = rectangularBody(60, 40, 50);
  const solid = solidOf('sawtooth', { width: 60, depth: 80, rise: 15, teeth: 4 }, body);
  const walls = solid.faces.filter(({ part, id }) => part === 'wall' && id.startsWith('east-wall'));
  expect(walls.length).toBeGreaterThan(0);
  const layer = layerAt(solid, by, body);
  expect(checkSolid(layer, { isLayer: true })).toEqual([]);
  for (const [x] of layer.vertices) expect(Math.abs(x)).toBeCloseTo(30 + by, 9);
});

test('a vault goes no further in than to where it sinks below the foot of its end wall', () => {
  const vault = solidOf(
    'barrel',
    { width: 45.25, depth: 27, rise: 11.845659, ridge: 'along-width', ends: 'walls' },
    rectangularBody(22.625, 13.5, 5),
  );
  // By hand: radius (13.5² + 11.845659²) / (2 · 11.845659) = 13.615521, centre 1.769862 below the eave; over half the body's 13.5
  // the vault stands √(13.615521² - 6.75²) - 1.769862 = 10.054685 high, where the end wall begins, 1.790974 below the crown.
  for (const by of [-0.5, -1.5, -1.79]) expect(offsetSolid(vault, by).ok).toBe(true);
  for (const by of [-1.792, -1.793, -1.7946, -1.7948, -1.82, -2.5]) {
    const found = offsetSolid(vault, by);
    expect(found.ok ? null : found.issues[0]?.numbers?.['most']).toBeCloseTo(1.790974, 2);
  }
});
