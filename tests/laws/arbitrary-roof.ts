import fc from 'fast-check';
import type { Plan } from '../../src/core/footprint/offset.ts';
import { rectangularBody } from '../../src/core/footprint/rectangular-body.ts';
import { stepsFor } from '../../src/core/geometry/arc.ts';
import { boxOf } from '../../src/core/geometry/polygon.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import type { Body, ShapeValues, SidePitches } from '../../src/core/project/project.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import { hasTiers, isTyped, type RoofDefinition, type TypedParam } from '../../src/core/roofs/definition.ts';
import type { Roll } from '../../src/core/solid/roll.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { arbitraryPitches, arbitraryPlan, bodyInside } from './arbitrary-plan.ts';

/** A roof as a maker could ask for it, and the solid it gives. Drawn from the definition alone. */
export interface DrawnRoof {
  readonly kind: string;
  readonly shape: ShapeValues;
  readonly body: Body | null;
  readonly solid: Solid;
}

/** Lengths in the middle of a kind's bounds: from a thimble to a model a metre wide. */
const least = 10;
const most = 600;

function arbitraryValue(param: TypedParam): fc.Arbitrary<number | string> {
  if (param.quantity === 'choice') return fc.constantFrom(...param.choices.map((choice) => choice.value));
  if (param.quantity === 'count') return fc.integer({ min: param.min, max: param.max });
  const isOffset = param.min < 0;
  const [low, high] =
    param.quantity === 'length' && !isOffset
      ? [Math.max(param.min, least), Math.min(param.max, most)]
      : [param.min, param.max];
  const anywhere = fc.double({ min: low, max: high, noNaN: true });
  // A computed length such as 54.000000000000007 and a typed one such as 54 both have to work.
  const typed = anywhere.map((value) => (param.quantity === 'length' ? Math.round(value * 4) / 4 : value));
  if (param.min === 0) return fc.oneof(fc.constant(0), anywhere, typed);
  return isOffset ? fc.oneof(fc.constant(0), fc.double({ min: -40, max: 40, noNaN: true })) : fc.oneof(anywhere, typed);
}

/** One value of each group, every other parameter, and the optional ones or not. */
function arbitraryTyped(definition: RoofDefinition): fc.Arbitrary<ShapeValues> {
  const groups = new Map<string, TypedParam[]>();
  for (const param of definition.params.filter(isTyped)) {
    const group = param.oneOf ?? param.key;
    groups.set(group, [...(groups.get(group) ?? []), param]);
  }
  return fc
    .tuple(
      ...[...groups.values()].map((params) =>
        fc.constantFrom(...params).chain((param) => {
          const entry = arbitraryValue(param).map((value) => [param.key, value] as const);
          return param.optional ? fc.option(entry) : entry;
        }),
      ),
    )
    .map((entries) => Object.fromEntries(entries.filter((entry) => entry !== null)));
}

/** A measured outline in place of the sizes of one where the kind takes it, and what belongs to its sides. */
function arbitraryShape(definition: RoofDefinition): fc.Arbitrary<ShapeValues> {
  const footprint = definition.params.find((param) => param.quantity === 'footprint');
  const pitches = definition.params.find((param) => param.quantity === 'side-pitches');
  const typed = arbitraryTyped(definition);
  if (!footprint) return typed;
  const sizes = new Set(definition.params.filter((param) => param.outline).map((param) => param.key));
  const hasCourts = definition.params.some((param) => param.quantity === 'courts');
  const measured = arbitraryPlan(hasCourts).chain((plan) =>
    fc.record({ rest: typed, pitches: pitches ? arbitraryPitches(plan, pitches) : fc.constant({}) }).map(
      ({ rest, pitches: own }): ShapeValues => ({
        ...Object.fromEntries(Object.entries(rest).filter(([key]) => !sizes.has(key))),
        corners: plan.corners,
        ...(plan.courts ? { courts: plan.courts } : {}),
        ...(pitches && Object.keys(own).length > 0 ? { [pitches.key]: own } : {}),
      }),
    ),
  );
  return footprint.optional ? fc.oneof({ weight: 3, arbitrary: typed }, { weight: 1, arbitrary: measured }) : measured;
}

/** A rectangular body that leaves an overhang of a random share on either axis, or none. */
const arbitraryBody = (shape: ShapeValues): fc.Arbitrary<Body | null> => {
  const { width, depth } = shape;
  if (typeof width !== 'number' || typeof depth !== 'number') return arbitraryMeasuredBody(shape);
  const share = fc.oneof(fc.constant(1), fc.double({ min: 0.5, max: 0.98, noNaN: true }));
  return fc.option(
    fc.tuple(share, share, fc.double({ min: 5, max: 200, noNaN: true })).map(([x, y, height]): Body => {
      const [w, d] = [(width * x) / 2, (depth * y) / 2];
      const outline = [
        [-w, -d],
        [w, -d],
        [w, d],
        [-w, d],
      ] as const;
      return { outline, height, rectangle: { width: 2 * w, depth: 2 * d } };
    }),
  );
};

/** A body of the measured outline less an overhang, at gables less another or none. */
function arbitraryMeasuredBody(shape: ShapeValues): fc.Arbitrary<Body | null> {
  const { corners, courts, pitches = {} } = shape as Partial<Plan> & { readonly pitches?: SidePitches };
  if (!corners) return fc.constant(null);
  const overhang = fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 8, noNaN: true }));
  return fc
    .tuple(overhang, fc.boolean(), fc.double({ min: 5, max: 200, noNaN: true }), fc.boolean())
    .map(([by, isFlush, height, isThere]) =>
      isThere ? bodyInside({ corners, courts }, by, height, (id) => isFlush && pitches[id] === 'gable') : null,
    );
}

/** A wall of a share of the lower roof's size: a rectangle, or a regular polygon. */
function arbitraryWall(lower: Solid): fc.Arbitrary<Body> {
  const box = boxOf(lower.vertices.map(([x, y]): Vec2 => [x, y]));
  const share = fc.double({ min: 0.15, max: 0.7, noNaN: true });
  const height = fc.double({ min: 1, max: 80, noNaN: true });
  const rectangle = fc
    .tuple(share, share, height)
    .map(([x, y, high]) => rectangularBody(x * (box.maxX - box.minX), y * (box.maxY - box.minY), high));
  const polygon = fc.tuple(fc.integer({ min: 3, max: 12 }), share, height).map(([sides, part, high]): Body => {
    const radius = (part * Math.min(box.maxX - box.minX, box.maxY - box.minY)) / 2;
    const outline = Array.from({ length: sides }, (_, i): Vec2 => {
      const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / sides;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    return { outline, height: high, rectangle: null };
  });
  return fc.oneof({ weight: 3, arbitrary: rectangle }, { weight: 1, arbitrary: polygon });
}

/** A round wall of a share of the lower roof's size. */
function arbitraryRoundWall(lower: Solid): fc.Arbitrary<Body> {
  const width = Math.max(...lower.vertices.map(([x]) => x));
  return fc
    .tuple(fc.double({ min: 0.15, max: 0.9, noNaN: true }), fc.double({ min: 1, max: 80, noNaN: true }))
    .map(([share, height]) => {
      const steps = 2 * stepsFor(share * width, Math.PI);
      const outline = Array.from({ length: steps }, (_, i): Vec2 => {
        const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / steps;
        return [share * width * Math.cos(angle), share * width * Math.sin(angle)];
      });
      return { outline, height, rectangle: null, isRound: true };
    });
}

/** A roof of roofs: its lower one by itself, a wall that may stand on it, its upper one with an overhang over the wall. */
function arbitraryTiers(definition: RoofDefinition): fc.Arbitrary<ShapeValues> {
  const [lowerKey, upperKey] = definition.params.flatMap(({ quantity, key }) => (quantity === 'roof' ? [key] : []));
  const wallKey = definition.params.find(({ quantity }) => quantity === 'wall')?.key;
  if (!lowerKey || !upperKey || !wallKey) throw new Error('two roofs and a wall are drawn');
  const plain = kinds.filter((kind) => !hasTiers(kind));
  const round = plain.filter(({ params }) => params.some(({ key }) => key === 'diameter'));
  const overhang = fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 8, noNaN: true }));
  const tiers = (
    among: readonly RoofDefinition[],
    wall: (lower: Solid) => fc.Arbitrary<Body>,
  ): fc.Arbitrary<readonly [DrawnRoof, RoofDefinition, fc.Arbitrary<Body>]> =>
    fc
      .tuple(fc.constantFrom(...among).chain(arbitraryRoof), fc.constantFrom(...among))
      .map(([lower, upper]) => [lower, upper, wall(lower.solid)]);
  const drawn = fc.oneof(
    { weight: 4, arbitrary: tiers(plain, arbitraryWall) },
    { weight: 1, arbitrary: tiers(round, arbitraryRoundWall) },
  );
  return drawn.chain(([lower, upper, wall]) =>
    fc.record({
      [lowerKey]: fc.constant({ kind: lower.kind, shape: lower.shape }),
      [wallKey]: wall,
      [upperKey]: fc.tuple(arbitraryTyped(upper), overhang).map(([shape, eave]) => ({
        kind: upper.id,
        shape: Object.fromEntries(
          Object.entries(shape).filter(([key]) => !upper.params.some((param) => param.key === key && param.outline)),
        ),
        overhang: { eave, verge: eave },
      })),
    }),
  );
}

/** Roofs of one kind; shapes that the kind refuses with an issue are drawn again. */
export function arbitraryRoof(definition: RoofDefinition): fc.Arbitrary<DrawnRoof> {
  return (hasTiers(definition) ? arbitraryTiers(definition) : arbitraryShape(definition))
    .chain((shape) => arbitraryBody(shape).map((body) => ({ shape, body, built: definition.build(shape, body) })))
    .filter(({ built }) => built.ok)
    .map(({ shape, body, built }) => {
      if (!built.ok) throw new Error('filtered');
      return { kind: definition.id, shape, body, solid: built.value };
    });
}

/** Panels that roofs of one kind have in the mean, from a few drawn with a fixed seed. */
export function panelsOf(definition: RoofDefinition): number {
  const drawn = fc.sample(arbitraryRoof(definition), { numRuns: 15, seed: 1 });
  return (
    drawn.reduce((sum, { solid }) => sum + solid.faces.reduce((count, { roll }) => count + weightOf(roll), 0), 0) /
    drawn.length
  );
}

/** A rolled panel takes as long as the flat ones it is sampled by. */
const weightOf = (roll: Roll | undefined): number => (roll ? roll.rulings.length / 2 : 1);

export { kinds };
