import fc from 'fast-check';
import type { Body, ShapeValues } from '../../src/core/project/project.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import type { Param, RoofDefinition } from '../../src/core/roofs/definition.ts';
import type { Solid } from '../../src/core/solid/solid.ts';

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

function arbitraryValue(param: Param): fc.Arbitrary<number | string> {
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
function arbitraryShape(definition: RoofDefinition): fc.Arbitrary<ShapeValues> {
  const groups = new Map<string, Param[]>();
  for (const param of definition.params) {
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

/** A rectangular body that leaves an overhang of a random share on either axis, or none. */
const arbitraryBody = (shape: ShapeValues): fc.Arbitrary<Body | null> => {
  const { width, depth } = shape;
  if (typeof width !== 'number' || typeof depth !== 'number') return fc.constant(null);
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

/** Roofs of one kind; shapes that the kind refuses with an issue are drawn again. */
export function arbitraryRoof(definition: RoofDefinition): fc.Arbitrary<DrawnRoof> {
  return arbitraryShape(definition)
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
  return drawn.reduce((sum, { solid }) => sum + solid.faces.length, 0) / drawn.length;
}

export { kinds };
