import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../geometry/vector.ts';
import { fail, type Issue } from '../issue.ts';
import { kinds } from '../roofs/catalogue.ts';
import { hasTiers, isTyped, type Param, type RoofDefinition } from '../roofs/definition.ts';
import { formatMark, parseLength, type Ruler, roundToRuler, toDegrees } from '../units/units.ts';
import { resolveProject } from './read-project.ts';
import { resolveShape } from './resolve-shape.ts';
import { gate, gateFile, type Loose } from './testing/gate-file.ts';

/** A kind that needs one thing more than an outline and a height. */
const stepped: RoofDefinition = {
  id: 'stepped',
  title: 'Stepped',
  summary: 'Only for this test.',
  params: [
    { key: 'span', label: 'Span', help: '', quantity: 'length', min: 5, max: 90, outline: true },
    { key: 'tread', label: 'Tread', help: '', quantity: 'length', min: 2, max: 30 },
    { key: 'lean', label: 'Lean', help: '', quantity: 'pitch', min: 0.1, max: 1.2, default: 0.7 },
    { key: 'steps', label: 'Steps', help: '', quantity: 'count', min: 2, max: 9 },
    { key: 'nose', label: 'Nose', help: '', quantity: 'length', min: 1, max: 20, optional: true },
  ],
  build: () => fail(),
  hasVerge: false,
  outlineFromBody: () => fail(),
  examples: [],
};

function shapeOf(shape: Readonly<Record<string, unknown>>, hasOverhang = false) {
  const issues: Issue[] = [];
  const intake = { units: 'mm', ruler: '1mm', scale: 0.5, report: (issue: Issue) => issues.push(issue) } as const;
  const values = resolveShape(intake, stepped, shape, { path: ['roofs', 3, 'shape'], hasOverhang });
  return { values, found: issues.map(({ code, path }) => `${code} ${path}`), issues };
}

describe('resolveShape', () => {
  it('scales lengths, leaves counts and angles, fills in what stands alone', () => {
    expect(shapeOf({ span: 60, tread: '2.4cm', steps: 4 })).toMatchObject({
      values: { span: 30, tread: 12, lean: 0.7, steps: 4 },
      found: [],
    });
  });

  it('names what is missing, and what it may be', () => {
    const { found, issues } = shapeOf({ span: 60 });
    expect(found).toEqual(['parameter-missing roofs[3].shape.tread', 'parameter-missing roofs[3].shape.steps']);
    expect(issues.map((issue) => issue.message)).toEqual([
      'Tread is missing. Allowed: 2 mm to 30 mm in the model.',
      'Steps is missing. Allowed: a whole number from 2 to 9.',
    ]);
  });

  it('gives an optional one its value, and none where it is left out', () => {
    expect(shapeOf({ span: 60, tread: 8, steps: 3, nose: 6 })).toMatchObject({ values: { nose: 3 }, found: [] });
    const without = shapeOf({ span: 60, tread: 8, steps: 3 });
    expect(without.found).toEqual([]);
    expect(Object.keys(without.values)).not.toContain('nose');
    expect(shapeOf({ span: 60, tread: 8, steps: 3, nose: 60 }).found).toEqual(['out-of-bounds roofs[3].shape.nose']);
  });

  it('asks for no outline over a body', () => {
    expect(shapeOf({ tread: 8, steps: 3 }, true).found).toEqual([]);
    expect(shapeOf({ tread: 8, steps: 3 }).found).toEqual(['outline-missing roofs[3].shape.span']);
  });
});

describe('a measured eave outline', () => {
  const square = [
    [0, 0],
    [60, 0],
    [60, 60],
    [0, 60],
  ];
  const read = (shape: Loose, more: Loose = {}) =>
    resolveProject(gateFile({ units: 'mm', roofs: [gate({ kind: 'hip', shape: { pitch: 40, ...shape }, ...more })] }));
  const codesOf = (shape: Loose, more: Loose = {}): string[] =>
    read(shape, more).issues.map(({ code, path }) => `${code} ${path}`);

  it('stands in place of width and depth, whichever way it is measured', () => {
    for (const shape of [{ corners: square }, { lengths: [60, 60, 60, 60], angles: [90, '90°', '90deg'] }]) {
      const result = read(shape);
      expect(result.issues).toEqual([]);
      const values = result.ok ? result.value.project.roofs[0]?.shape : {};
      expect(Object.keys(values ?? {}).sort()).toEqual(['corners', 'pitch']);
      expect(((values?.['corners'] ?? []) as Vec2[]).map((p) => p.map((x) => Math.round(x)))).toEqual([
        [-30, -30],
        [30, -30],
        [30, 30],
        [-30, 30],
      ]);
    }
  });

  it('is given in exactly one way', () => {
    expect(codesOf({ corners: square, width: 60 })).toEqual(['outline-form roofs[0].shape']);
    expect(codesOf({ corners: square, lengths: [30, 40, 50] })).toEqual(['outline-form roofs[0].shape']);
    expect(codesOf({ angles: [90, 90, 90] })).toEqual(['outline-form roofs[0].shape']);
    expect(read({ corners: square, width: 60 }).issues[0]?.message).toBe(
      'The eave outline is given in exactly one way: width and depth, corners or lengths (with a diagonal or angles); found width and corners.',
    );
    expect(codesOf({ lengths: [30, 40, 50] }, { overhang: 3 })).toEqual(['outline-and-overhang roofs[0].shape']);
  });

  it('is refused with its own path where its measures contradict each other', () => {
    expect(codesOf({ lengths: [10, 20, 50] })).toEqual(['no-triangle roofs[0].shape.lengths']);
    expect(codesOf({ lengths: [60, 60, 60, 60.7], angles: [90, 90, 90] })).toEqual([
      'closed-evenly roofs[0].shape.lengths',
    ]);
  });

  it('has sides of their own by their ids, and courts in its frame', () => {
    const typed = { corners: square, courts: [square.map((p) => p.map((x) => 20 + x / 3))], pitch: 40 };
    const yard = { kind: 'hip-and-valley', shape: { ...typed, pitches: { south: '9/12', east: 'gable' } } };
    const result = resolveProject(gateFile({ units: 'mm', roofs: [gate(yard)] }));
    expect(result.issues).toEqual([]);
    const values = result.ok ? result.value.project.roofs[0]?.shape : {};
    expect(values?.['pitches']).toEqual({ south: Math.atan2(9, 12), east: 'gable' });
    expect(((values?.['courts'] ?? []) as Vec2[][])[0]?.[0]).toEqual([-10, -10]);
    const wrong = { ...yard, shape: { ...typed, pitches: { south: 'gabel', east: 89, west: [3] } } };
    expect(
      resolveProject(gateFile({ units: 'mm', roofs: [gate(wrong)] })).issues.map(({ code, path }) => `${code} ${path}`),
    ).toEqual([
      'wrong-type roofs[0].shape.pitches.west',
      'pitch-unreadable roofs[0].shape.pitches.south',
      'out-of-bounds roofs[0].shape.pitches.east',
    ]);
  });

  it('is unknown to kinds on a square', () => {
    expect(codesOf({ corners: square, width: 60, rise: 50, pitch: undefined }, { kind: 'helm' })[0]).toContain(
      'unknown-key roofs[0].shape.corners',
    );
  });
});

/** One of a group's members; nothing where a kind has no such group. */
const oneOf = <P extends Param>(members: readonly P[]): fc.Arbitrary<P | undefined> =>
  members.length === 0 ? fc.constant(undefined) : fc.constantFrom(...members);

describe.each(kinds.filter((kind) => !hasTiers(kind)).map((kind) => [kind.id, kind] as const))(
  'the parameters of a %s',
  (id, kind) => {
    const params = kind.params.filter(isTyped).filter((param) => param.quantity !== 'choice');
    const needsPlan = kind.params.some((param) => param.quantity === 'footprint' && !param.optional);
    const withoutGroup = (param: Param): boolean => !param.oneOf;
    const onePerGroup = fc.record({
      height: oneOf(params.filter((param) => param.oneOf === 'height')),
      plan: fc.constantFrom(undefined, ...params.filter((param) => param.oneOf === 'plan')),
    });
    const hasPlans = params.some((param) => param.oneOf === 'plan');

    it('are read from any text inside their bounds, and refused outside them', () => {
      const ruler: Ruler = '1/32in';
      fc.assert(
        fc.property(onePerGroup, fc.infiniteStream(fc.integer({ min: 2, max: 998 })), (groups, shares) => {
          const plan = groups.plan ?? params.find((param) => param.oneOf === 'plan');
          const used = [...params.filter(withoutGroup), groups.height, ...(hasPlans && plan ? [plan] : [])];
          const wanted = new Map<string, number>();
          const shape: Loose = needsPlan ? { lengths: [30, 40, 50] } : {};
          for (const param of used) {
            if (!param) continue;
            // A little inside the bounds, so that the nearest mark is too.
            const share = (shares.next().value as number) / 1000;
            const value = param.min + (param.max - param.min) * share;
            if (param.quantity === 'count') {
              shape[param.key] = Math.round(value);
              wanted.set(param.key, Math.round(value));
            } else if (param.quantity === 'pitch') {
              shape[param.key] = toDegrees(value);
              wanted.set(param.key, value);
            } else {
              const mark = roundToRuler(value, ruler).mark;
              shape[param.key] = formatMark(mark, ruler);
              wanted.set(param.key, mark);
            }
          }
          const result = resolveProject(gateFile({ roofs: [gate({ kind: id, shape })] }));
          expect(result.issues).toEqual([]);
          const read = result.ok ? (result.value.project.roofs[0]?.shape ?? {}) : {};
          for (const [key, value] of wanted) expect(Number(read[key])).toBeCloseTo(value, 9);
        }),
        { numRuns: 200 },
      );
      for (const param of params) {
        if (param.quantity !== 'length') continue;
        for (const outside of [param.min - 0.5, param.max + 0.5]) {
          const { issues } = resolveProject(gateFile({ roofs: [gate({ kind: id, shape: { [param.key]: outside } })] }));
          const about = issues.filter((issue) => issue.path === `roofs[0].shape.${param.key}`);
          expect(about.map((issue) => issue.code)).toEqual([
            outside < 0 && param.min >= 0 ? 'length-negative' : 'out-of-bounds',
          ]);
        }
      }
    });

    it('have bounds in their sentences that a maker can type', () => {
      for (const param of params) {
        if (param.quantity !== 'length') continue;
        const { issues } = resolveProject(
          gateFile({ roofs: [gate({ kind: id, shape: { [param.key]: '99in 1/2' } })] }),
        );
        expect(issues.some((issue) => issue.code === 'length-unreadable')).toBe(true);
        const far = resolveProject(gateFile({ roofs: [gate({ kind: id, shape: { [param.key]: '900in' } })] })).issues;
        const message = far.find((issue) => issue.code === 'out-of-bounds')?.message ?? '';
        const [, least = '', most = ''] = /Allowed: (.*) to (.*)\.$/.exec(message) ?? [];
        for (const bound of [least, most]) {
          const mm = parseLength(bound, { negative: 'allow' });
          expect(mm.ok && mm.value >= param.min && mm.value <= param.max, `${bound} of ${param.key}`).toBe(true);
        }
      }
    });
  },
);
