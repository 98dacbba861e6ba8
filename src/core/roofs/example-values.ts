import { footprintFrom, type Measures } from '../footprint/footprint.ts';
import { rectangularBody } from '../footprint/rectangular-body.ts';
import type { ShapeValue, ShapeValues, TierSpec, TypedTier } from '../project/project.ts';
import { CUT_MM } from '../tolerance.ts';
import { fromDegrees } from '../units/units.ts';
import type { FindKind, Param, RoofDefinition } from './definition.ts';

/** What `build` is given for an example, whose lengths are mm and pitches degrees; with the defaults of what stands alone. */
export function exampleValues({ params, find }: RoofDefinition, shape: ShapeValues): ShapeValues {
  const entries = params.flatMap((param): (readonly [string, ShapeValue])[] => {
    if (param.quantity === 'footprint') return planEntries(shape);
    const typed = shape[param.key];
    if (param.quantity === 'courts') return [];
    if (typed !== undefined) return [[param.key, inside(param, typed, find)]];
    return param.oneOf || param.default === undefined ? [] : [[param.key, param.default]];
  });
  return Object.fromEntries(entries);
}

function inside(param: Param, typed: ShapeValue, find: FindKind | undefined): ShapeValue {
  if (param.quantity === 'roof') return tierOf(typed as TypedTier, find);
  if (param.quantity === 'wall') {
    const { width, depth, height } = typed as Readonly<Record<'width' | 'depth' | 'height', number>>;
    return rectangularBody(width, depth, height);
  }
  if (param.quantity === 'pitch') return fromDegrees(Number(typed));
  if (param.quantity !== 'side-pitches') return typed;
  return Object.fromEntries(
    Object.entries(typed).map(([side, pitch]) => [side, typeof pitch === 'number' ? fromDegrees(pitch) : 'gable']),
  );
}

function tierOf({ kind, shape, overhang }: TypedTier, find: FindKind | undefined): TierSpec {
  const definition = find?.(kind);
  return {
    kind,
    shape: definition ? exampleValues(definition, shape) : shape,
    ...(overhang === undefined ? {} : { overhang: { eave: overhang, verge: overhang } }),
  };
}

function planEntries(shape: ShapeValues): (readonly [string, ShapeValue])[] {
  if (shape['corners'] === undefined && shape['lengths'] === undefined) return [];
  const measures = shape as Measures;
  const angles = measures.angles?.map(fromDegrees);
  const plan = footprintFrom({ ...measures, ...(angles ? { angles } : {}) }, { gap: CUT_MM, side: CUT_MM, angle: 1 });
  if (!plan.ok) return [];
  const { corners, courts } = plan.value;
  return courts.length === 0
    ? [['corners', corners]]
    : [
        ['corners', corners],
        ['courts', courts],
      ];
}
