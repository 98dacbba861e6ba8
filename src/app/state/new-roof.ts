import { type Plan, ringsOf, standOut } from '../../core/footprint/offset.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { exampleValues } from '../../core/roofs/example-values.ts';
import { exampleShape, handyText } from './change-kind.ts';
import { exampleSolid } from './example.ts';
import type { Json, JsonObject } from './file-path.ts';
import { planExtents, type Sizes, solidExtents } from './roof-edits.ts';

/** Overhang and height of the body under a new roof, mm in the model. */
const OVERHANG = 3;
const HEIGHT = 75;
const FLAP = 6;

export interface NewRoof {
  readonly id: string;
  readonly title: string;
  readonly stock: string;
}

/**
 * A roof to begin with, of the sizes that its kind's first example has; candidates in order of preference: over the plan of
 * the example where the kind has no plainer one, over a rectangular body, over a regular one, without a body.
 */
export const newRoof = ({ id, title, stock }: NewRoof, definition: RoofDefinition, sizes: Sizes): JsonObject[] => {
  const model = exampleSolid(definition);
  const { width, depth } = model === null ? solidExtents([]) : planExtents(model);
  const size = (mm: number): string => handyText(sizes, mm);
  const height = size(HEIGHT);
  const shape = exampleShape(definition, sizes, 1, 'without outline');
  const sides = Number(shape['sides'] ?? 8);
  const across = Math.min(width, depth) - 2 * OVERHANG;
  const isRound = definition.params.some((param) => param.key === 'diameter' && param.outline);
  const bodies: JsonObject[] = [
    ...(isRound ? [{ diameter: size(width - 2 * OVERHANG), height }] : []),
    ...measuredBodies(definition, size).map((plan) => ({ ...plan, height })),
    { width: size(width - 2 * OVERHANG), depth: size(depth - 2 * OVERHANG), height },
    { sides, [sides % 2 === 0 ? 'acrossFlats' : 'acrossCorners']: size(across), height },
  ];
  const flaps = { width: sizes.units === 'in' ? '1/4in' : `${FLAP}mm`, on: 'alternate' };
  const layers = [{ as: 'cover', stock, pieces: 'per-panel', flaps }];
  const base = { id, title, copies: 1, kind: definition.id };
  return [
    ...bodies.map((body): JsonObject => ({ ...base, shape, overhang: size(OVERHANG), body, layers })),
    { ...base, shape: exampleShape(definition, sizes, 1, 'with outline'), layers },
  ];
};

/** The plan of the example less the overhang, for the kinds whose outline is always measured. */
const measuredBodies = (definition: RoofDefinition, size: (mm: number) => string): JsonObject[] => {
  const isMeasured = definition.params.some((param) => param.quantity === 'footprint' && !param.optional);
  const { corners, courts } = exampleValues(definition, definition.examples[0]?.shape ?? {}) as Partial<Plan>;
  if (!isMeasured || corners === undefined) return [];
  const count = ringsOf({ corners, courts }).flat().length;
  const plan = standOut(
    { corners, courts },
    Array.from({ length: count }, () => -OVERHANG),
  );
  if (!plan.ok) return [];
  const text = (ring: readonly Vec2[]): Json => ring.map(([x, y]) => [size(x), size(y)]);
  const holes = plan.value.courts;
  return [{ corners: text(plan.value.corners), ...(holes ? { courts: holes.map(text) } : {}) }];
};
