import { describe, expect, test } from 'vitest';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import type { Body, SeamChoices, ShapeValues } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet, type NetOptions } from './build-net.ts';
import { checkNet } from './check-net.ts';
import { seamOptions, withChoice } from './seam-options.ts';

function roof(kind: string, shape: ShapeValues, body: Body | null = null): Solid {
  const built = findKind(kind)?.build(shape, body);
  if (!built?.ok) throw new Error(`no ${kind}`);
  return built.value;
}
const pyramid = roof('pyramid', { width: 40, depth: 40, rise: 30 });
const flaps = { width: 5, on: 'alternate', clearance: 0.5, least: 2 } as const;
const layer = (seams: SeamChoices, pieces: NetOptions['pieces'] = 'one-piece'): NetOptions => ({
  pieces,
  flaps,
  seams,
});
const built = (solid: Solid, options: NetOptions) => {
  const made = buildNet(solid, options);
  expect(checkNet(solid, made.net, flaps)).toEqual([]);
  const joinOf = new Map(made.net.seams.map(({ edge, join }) => [solid.edges[edge]?.id, join]));
  return { ...made, joinOf, codes: made.issues.filter(({ level }) => level === 'error').map(({ code }) => code) };
};

describe('edges joined by hand', () => {
  test('a front hip is cut where a maker wants it, and the others stay', () => {
    const { joinOf, codes } = built(pyramid, layer({ 'hip-south-east': { join: 'flap' } }));
    expect([[...joinOf], codes]).toEqual([[['hip-south-east', 'flap']], []]);
  });

  test('by panels, a fold joins two sides and nothing else', () => {
    const { net, joinOf } = built(pyramid, layer({ 'hip-south-east': { join: 'fold' } }, 'per-panel'));
    expect(net.pieces).toHaveLength(3);
    expect(joinOf.has('hip-south-east')).toBe(false);
  });

  test.each(['south', 'east'])('a flap goes on the panel %s', (on) => {
    const { net } = built(pyramid, layer({ 'hip-south-east': { join: 'flap', on } }, 'per-panel'));
    const flap = net.pieces
      .flatMap((piece) => piece.flaps)
      .find(({ edge }) => pyramid.edges[edge]?.id === 'hip-south-east');
    expect(pyramid.faces[flap?.from ?? -1]?.id).toBe(on);
  });

  test('tape and strip in place of a flap; a flap where none was to be', () => {
    const choice = { 'hip-south-east': { join: 'tape' }, 'hip-south-west': { join: 'strip' } } as const;
    expect([...built(pyramid, layer(choice, 'per-panel')).joinOf].slice(0, 4)).toEqual([
      ['hip-south-east', 'tape'],
      ['hip-south-west', 'strip'],
      ['hip-east-north', 'flap'],
      ['hip-north-west', 'flap'],
    ]);
    const none = {
      pieces: 'per-panel',
      flaps: { ...flaps, on: 'none' },
      seams: { 'hip-south-east': { join: 'flap' } },
    } as const;
    expect(built(pyramid, none).joinOf.get('hip-south-east')).toBe('flap');
  });

  test('folds all round a peak close a ring: the last of them is refused, the rest is made', () => {
    const hips = pyramid.edges.filter(({ role }) => role === 'hip').map(({ id }) => [id, { join: 'fold' }] as const);
    const { issues, joinOf, codes } = built(pyramid, layer(Object.fromEntries(hips)));
    expect(codes).toEqual(['fold-closes-ring']);
    const last = hips.at(-1)?.[0];
    expect(issues[0]).toMatchObject({ path: `seams.${last}.join`, place: { edges: [last] } });
    expect([...joinOf.keys()]).toEqual([last]);
  });

  test('what cannot be says where and why', () => {
    const refused = (solid: Solid, seams: SeamChoices) => {
      const { issues } = built(solid, layer(seams));
      const [first] = issues;
      return [first?.code, first?.path, first?.message];
    };
    expect(refused(pyramid, { 'hip-south-aest': { join: 'fold' } })).toEqual([
      'seam-unknown',
      'seams.hip-south-aest',
      'This roof has no edge "hip-south-aest". Did you mean "hip-south-east"?',
    ]);
    expect(refused(pyramid, { 'eave-south': { join: 'tape' } })[0]).toBe('seam-open');
    expect(refused(pyramid, { 'hip-south-east': { join: 'flap', on: 'eats' } })).toEqual([
      'seam-on-elsewhere',
      'seams.hip-south-east.on',
      'The hip between south and east may have its flap on "south" or "east", not on "eats". Did you mean "east"?',
    ]);
    expect(refused(pyramid, { 'hip-south-east': { join: 'tape', on: 'east' } })[0]).toBe('seam-on-without-flap');
    const gable = roof('gable', { width: 60, depth: 40, rise: 25, ends: 'walls' }, rectangularBody(50, 36, 30));
    const wall = gable.edges.find(({ role }) => role === 'abutment');
    const slope = gable.faces[wall?.faces[1] as number]?.id ?? '';
    expect(refused(gable, { [wall?.id ?? '']: { join: 'fold' } })[0]).toBe('fold-at-wall');
    expect(refused(gable, { [wall?.id ?? '']: { join: 'flap', on: slope } })[0]).toBe('flap-bound');
    const bell = roof('bell-cast-cone', { diameter: 60, rise: 50, flareRise: 8, flarePitch: 0.5 });
    const curve = bell.edges.find(({ via, faces }) => via && faces.length === 2);
    expect(refused(bell, { [curve?.id ?? '']: { join: 'fold' } })[0]).toBe('fold-curved');
    expect(refused(bell, { [curve?.id ?? '']: { join: 'strip' } })[0]).toBe('strip-curved');
  });

  test('a flat roof of many panels: a fold that would lay a panel on another is refused', () => {
    // A star of narrow high slopes: laid out from the peak they go round more than once.
    const spire = roof('spire', { sides: 12, acrossCorners: 100, rise: 10 });
    const hips = spire.edges.filter(({ role }) => role === 'hip').map(({ id }) => [id, { join: 'fold' }] as const);
    expect(built(spire, layer(Object.fromEntries(hips))).codes).toEqual(['fold-closes-ring']);
  });
});

describe('the choices at an edge', () => {
  test('of a hip: fold, a flap on either panel, strip and tape', () => {
    const options = seamOptions(pyramid, layer({}, 'per-panel'), 'hip-south-east');
    expect(options.map(({ choice: { join, on }, why }) => [join, on, why?.code])).toEqual([
      ['fold', undefined, undefined],
      ['flap', 'south', undefined],
      ['flap', 'east', undefined],
      ['strip', undefined, undefined],
      ['tape', undefined, undefined],
    ]);
  });

  test('beside other folds round the peak the last hip cannot fold', () => {
    const hips = pyramid.edges.filter(({ role }) => role === 'hip').map(({ id }) => id);
    const seams = Object.fromEntries(hips.slice(1).map((id) => [id, { join: 'fold' }] as const));
    const [fold, ...others] = seamOptions(pyramid, layer(seams), hips[0] as string);
    expect(fold?.why?.code).toBe('fold-closes-ring');
    expect(others.every(({ why }) => why === null)).toBe(true);
  });

  test('of an eave: none, and why', () => {
    const options = seamOptions(pyramid, layer({}), 'eave-south');
    expect(options.every(({ why }) => why?.code === 'seam-open')).toBe(true);
  });

  test('a flap too wide for a narrow panel tells that it finds no room', () => {
    const thin = roof('spire', { sides: 24, acrossCorners: 14, rise: 90 });
    const options = seamOptions(thin, layer({}, 'per-panel'), thin.edges.find(({ role }) => role === 'hip')?.id ?? '');
    expect(options.find(({ choice }) => choice.join === 'flap')?.why?.code).toBe('flap-too-small');
  });

  test('are changed one at a time', () => {
    const seams = withChoice({ a: { join: 'fold' }, b: { join: 'tape' } }, 'a', { join: 'flap' });
    expect(Object.entries(seams)).toEqual([
      ['b', { join: 'tape' }],
      ['a', { join: 'flap' }],
    ]);
    expect(withChoice(seams, 'b', null)).toEqual({ a: { join: 'flap' } });
  });
});
