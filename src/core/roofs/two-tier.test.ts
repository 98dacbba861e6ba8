import { describe, expect, test } from 'vitest';
import { workOrder } from '../fold/work-order.ts';
import { type MadeRoof, makeRoof } from '../make-roof.ts';
import { buildNet } from '../net/build-net.ts';
import { checkNet } from '../net/check-net.ts';
import { resolveProject } from '../project/read-project.ts';
import { checkSolid } from '../solid/check-solid.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { toDegrees } from '../units/units.ts';

const flaps = { width: 5, on: 'alternate', clearance: 0.5, least: 2 } as const;

function made(shape: Readonly<Record<string, unknown>>, more: Readonly<Record<string, unknown>> = {}) {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Tiers',
    units: 'mm',
    stock: [{ id: 'plain', width: 600, height: 600, direction: 'any' }],
    roofs: [{ id: 'one', kind: 'two-tier', shape, layers: [{ as: 'cover', stock: 'plain', flaps }], ...more }],
  });
  if (!read.ok) return { issues: read.issues, made: null } as Pick<MadeRoof, 'issues' | 'made'>;
  const { project } = read.value;
  return makeRoof(project.roofs[0] as (typeof project.roofs)[number], project, 0);
}
const solidOf = (shape: Readonly<Record<string, unknown>>): Solid => {
  const roof = made(shape);
  if (!roof.made) throw new Error(JSON.stringify(roof.issues));
  return roof.made.solid;
};
const codesOf = (shape: Readonly<Record<string, unknown>>, more = {}): readonly string[] =>
  made(shape, more).issues.flatMap(({ level, code, path }) => (level === 'error' ? [`${code} ${path}`] : []));
const roleCount = ({ edges }: Solid, role: Edge['role'], of: string): number =>
  edges.filter((edge) => edge.role === role && edge.id.includes(of)).length;

// The eave is 100 x 100 mm, the first tier rises at 45 degrees up to a wall of 50 x 50 mm, 15 mm high.
const lower = { kind: 'hip', shape: { width: 100, depth: 100, pitch: 45 } };
const wall = { width: 50, depth: 50, height: 15 };
const pyramid = { kind: 'pyramid', shape: { pitch: 60 }, overhang: 0 };

describe('a wall of 50 x 50 mm, 15 mm high, on a slope of 45 degrees over 100 x 100 mm', () => {
  const solid = solidOf({ lower, wall, upper: pyramid });
  const levels = (id: string): readonly number[] =>
    (solid.faces.find((face) => face.id === id)?.loop ?? []).map((v) => solid.vertices[v]?.[2] ?? 0);

  test('stands at 25 mm, ends at 40 mm and carries its roof from there', () => {
    // In from the eave by half the difference of the sides, and at 45 degrees up by as much.
    expect(Math.min(...levels('wall-south'))).toBeCloseTo(25, 9);
    expect(Math.max(...levels('wall-south'))).toBeCloseTo(40, 9);
    expect(Math.max(...levels('upper-south'))).toBeCloseTo(40 + 25 * Math.sqrt(3), 9);
    expect(Math.max(...levels('lower-south'))).toBeCloseTo(50, 9);
  });

  test('meets each lower slope in a level abutment as long as the wall', () => {
    const feet = solid.edges.filter(({ role }) => role === 'abutment');
    expect(feet).toHaveLength(4);
    for (const { length, dihedral, faces } of feet) {
      expect(length).toBeCloseTo(50, 9);
      // Behind the wall the slope goes on up at 45 degrees.
      expect(toDegrees(dihedral ?? 0)).toBeCloseTo(45, 9);
      expect(faces.map((f) => solid.faces[f]?.part)).toEqual(['wall', 'slope']);
    }
  });

  test('shares its upper edges with a roof that does not stand out', () => {
    expect(roleCount(solid, 'eave', 'upper')).toBe(4);
    for (const { id, role, faces } of solid.edges)
      if (role === 'eave' && id.includes('upper')) expect(faces).toHaveLength(2);
  });

  test('meets the inside of a roof that stands out', () => {
    const wide = solidOf({ lower, wall, upper: { ...pyramid, overhang: 4 } });
    const heads = wide.edges.filter(
      ({ role, faces }) => role === 'abutment' && faces.some((f) => wide.faces[f]?.id.startsWith('upper')),
    );
    expect(heads).toHaveLength(4);
    // Inside, the slope of 60 degrees goes on up from the wall: 90 + 60 degrees.
    for (const { dihedral } of heads) expect(toDegrees(dihedral ?? 0)).toBeCloseTo(150, 9);
  });

  test('goes on after the lower roof and before the upper one', () => {
    for (const overhang of [0, 4]) {
      const tiers = solidOf({ lower, wall, upper: { kind: 'gable', shape: { pitch: 40 }, overhang } });
      const { net } = buildNet(tiers, { pieces: 'per-panel', flaps });
      const order = workOrder(tiers, net).map((p) => net.pieces[p]?.id.split('-')[0]);
      const last = (tier: string): number => order.lastIndexOf(tier);
      expect(last('lower')).toBeLessThan(order.indexOf('wall'));
      expect(last('wall')).toBeLessThan(order.indexOf('upper'));
    }
  });

  test('has its flaps behind the wall, on the lower slopes', () => {
    const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
    expect(checkNet(solid, net, flaps)).toEqual([]);
    const feet = net.pieces.flatMap((piece) =>
      piece.flaps.filter((flap) => solid.edges[flap.edge]?.role === 'abutment'),
    );
    expect(feet).toHaveLength(4);
    for (const { kind, angle } of feet) expect([kind, toDegrees(angle)]).toEqual(['mountain', expect.closeTo(135, 9)]);
  });
});

test('a wall across a ridge is cut to the slopes', () => {
  const gable = { kind: 'gable', shape: { width: 100, depth: 60, rise: 30 } };
  const solid = solidOf({ lower: gable, wall: { width: 40, depth: 20, height: 8 }, upper: pyramid });
  const east = solid.faces.find(({ id }) => id === 'wall-east');
  const points = (east?.loop ?? []).map((v) => solid.vertices[v] ?? [0, 0, 0]);
  // Each flap under it ends otherwise at the ridge than at the corner.
  for (const on of ['alternate', 'one-side'] as const) {
    const { net } = buildNet(solid, { pieces: 'per-panel', flaps: { ...flaps, on } });
    expect(checkNet(solid, net, flaps)).toEqual([]);
  }
  // Over the ridge it is 8 high; 10 off it the slope lies 10 lower.
  expect(points.map(([, y, z]) => [y, z].map((mm) => Number(mm.toFixed(9))))).toEqual(
    expect.arrayContaining([
      [-10, 20],
      [0, 30],
      [10, 20],
      [10, 38],
      [-10, 38],
    ]),
  );
});

test.each(['gable', 'helm', 'spire', 'flat', 'shed', 'mansard', 'butterfly'])('a %s stands on the wall', (kind) => {
  const shapes: Readonly<Record<string, object>> = {
    spire: { sides: 4, pitch: 60 },
    flat: {},
    mansard: { rise: 20, breakRise: 12 },
    butterfly: { rise: 4 },
  };
  // Two of the walls of a butterfly go up to its high sides, and its valley has to clear the roof below.
  const high = { ...wall, height: 40 };
  for (const overhang of [0, 3]) {
    const solid = solidOf({ lower, wall: high, upper: { kind, shape: shapes[kind] ?? { rise: 20 }, overhang } });
    expect(checkSolid(solid)).toEqual([]);
  }
});

test('stands on the whole of a level top', () => {
  const frustum = { kind: 'frustum', shape: { width: 80, depth: 80, rise: 20, pitch: 45 } };
  const solid = solidOf({ lower: frustum, wall: { width: 40, depth: 40, height: 12 }, upper: pyramid });
  expect(checkSolid(solid)).toEqual([]);
  const { net } = buildNet(solid, { pieces: 'per-panel', flaps });
  expect(checkNet(solid, net, flaps)).toEqual([]);
});

test('takes the lower outline from the body', () => {
  const tiers = { lower: { kind: 'hip', shape: { pitch: 45 } }, wall, upper: pyramid };
  const body = { width: 92, depth: 92, height: 60 };
  const roof = made(tiers, { body, overhang: 4 });
  expect(roof.issues.filter(({ level }) => level === 'error')).toEqual([]);
  expect(roof.made?.fit.overhang).toMatchObject({ min: expect.closeTo(4, 9), max: expect.closeTo(4, 9) });
  expect(roof.made?.fit.rest).toBeCloseTo(60 - 4, 9);
});

describe('a round wall, 40 mm across and 12 mm high', () => {
  const cone = { kind: 'cone', shape: { diameter: 100, rise: 40 } };
  const drum = { diameter: 40, height: 12 };
  const cap = (overhang: number) => ({ kind: 'cone', shape: { rise: 30 }, overhang });

  test('stands on a cone in two rolled halves, level all round, with its teeth behind it', () => {
    const tiers = { lower: cone, wall: drum, upper: cap(3) };
    const { made: roof } = made(tiers);
    const solid = solidOf(tiers);
    const halves = solid.faces.filter(({ part }) => part === 'wall');
    expect(halves.map(({ roll }) => roll?.surface)).toEqual([
      { form: 'cylinder', radius: expect.closeTo(20, 9), rulings: 'y' },
      { form: 'cylinder', radius: expect.closeTo(20, 9), rulings: 'y' },
    ]);
    // The cone is 40 high on a radius of 50: at 20 mm from its axis it lies 24 mm high.
    const levels = halves.flatMap(({ loop }) => loop.map((v) => Number(solid.vertices[v]?.[2].toFixed(9))));
    expect([...new Set(levels)].sort((a, b) => a - b)).toEqual([24, 36]);
    const around = solid.edges.filter(({ role }) => role === 'abutment');
    expect(around).toHaveLength(4);
    for (const { length } of around) expect(length).toBeCloseTo(20 * Math.PI, 6);
    for (const { net, spec } of roof?.layers ?? []) expect(checkNet(solid, net, spec.flaps)).toEqual([]);
  });

  test('shares the eave of a cone that does not stand out, and stands on a level top', () => {
    const shared = solidOf({ lower: cone, wall: drum, upper: cap(0) });
    expect(shared.edges.filter(({ role }) => role === 'abutment')).toHaveLength(2);
    expect(checkSolid(shared)).toEqual([]);
    const deck = solidOf({
      lower: { kind: 'frustum', shape: { width: 90, depth: 90, rise: 20, pitch: 45 } },
      wall: drum,
      upper: cap(3),
    });
    expect(checkSolid(deck)).toEqual([]);
    expect(deck.edges.filter(({ id }) => id.startsWith('abutment') && id.endsWith('lower-top'))).toHaveLength(2);
  });

  test('is refused where the roofs are not level round it', () => {
    expect(codesOf({ lower, wall: drum, upper: cap(3) })).toEqual(['round-wall-uneven roofs[0].shape.wall']);
    expect(codesOf({ lower: cone, wall: { ...drum, diameter: 104 }, upper: cap(3) })).toEqual([
      'wall-sticks-out roofs[0].shape.wall',
    ]);
  });
});

describe('refuses', () => {
  test('a wall that the lower roof does not carry, or an upper roof that does not cover it', () => {
    expect(codesOf({ lower, wall: { ...wall, width: 104 }, upper: pyramid })).toEqual([
      'wall-sticks-out roofs[0].shape.wall',
    ]);
    const small = { kind: 'pyramid', shape: { width: 46, depth: 60, pitch: 60 } };
    expect(codesOf({ lower, wall, upper: small })).toEqual(['upper-too-small roofs[0].shape.upper']);
    expect(codesOf({ lower, wall: { ...wall, height: 0 }, upper: pyramid })).toEqual([
      'wall-too-low roofs[0].shape.wall.height',
    ]);
  });

  test('tiers that come through each other, and says by how much', () => {
    const flat = { kind: 'hip', shape: { pitch: 10 }, overhang: 0 };
    const { issues } = made({ lower, wall, upper: flat });
    // The lower peak is at 50 mm, the upper one at 40 and 25 times the tangent of its pitch.
    const by = 50 - 40 - 25 * Math.tan(Math.PI / 18);
    expect(issues).toMatchObject([{ code: 'tiers-meet', numbers: { by: expect.closeTo(by, 9) } }]);
    const steep = { kind: 'pyramid', shape: { pitch: 80 }, overhang: 20 };
    expect(codesOf({ lower, wall, upper: steep })).toEqual(['upper-hangs-low roofs[0].shape.upper']);
  });

  test('a fascia that would go through the slope below the upper eave', () => {
    const shape = { lower, wall, upper: { ...pyramid, overhang: 4 } };
    // The upper eave stands out 4 mm over a slope of 45 degrees, where that lies 21 mm over the lower eave.
    const { issues, made: roof } = made(shape, { fascia: 20 });
    expect(roof).toBeNull();
    const eave = 25 + 15 - 4 * Math.tan(Math.PI / 3);
    expect(issues).toMatchObject([
      { code: 'fascia-meets-slope', path: 'roofs[0].fascia', numbers: { room: expect.closeTo(eave - 21, 9) } },
    ]);
    expect(codesOf(shape, { fascia: 8 })).toEqual([]);
  });

  test('what a part of it refuses, at that part', () => {
    const leaning = { kind: 'pyramid', shape: { pitch: 60, peakX: 40 }, overhang: 0 };
    expect(codesOf({ lower, wall, upper: leaning })).toEqual(['peak-outside roofs[0].shape.upper.shape.peakX']);
    const eight = { kind: 'spire', shape: { sides: 8, pitch: 60 }, overhang: 0 };
    expect(codesOf({ lower, wall, upper: eight })).toEqual(['body-sides-differ roofs[0].shape.wall']);
    expect(codesOf({ lower, upper: pyramid })).toEqual(['missing-key roofs[0].shape.wall']);
    expect(codesOf({ lower: { ...lower, overhang: 3 }, wall, upper: pyramid })).toEqual([
      'unknown-key roofs[0].shape.lower.overhang',
    ]);
    const nested = { kind: 'two-tier', shape: {} };
    expect(codesOf({ lower: nested, wall, upper: pyramid })).toEqual(['wrong-type roofs[0].shape.lower.kind']);
  });
});
