import { footprintFrom, type Measures } from '../footprint/footprint.ts';
import type { ShapeValue, ShapeValues } from '../project/project.ts';
import { CUT_MM } from '../tolerance.ts';
import { fromDegrees } from '../units/units.ts';
import type { Param, RoofDefinition } from './definition.ts';

/** What `build` is given for an example, whose lengths are mm and pitches degrees; with the defaults of what stands alone. */
export function exampleValues({ params }: RoofDefinition, shape: ShapeValues): ShapeValues {
  const entries = params.flatMap((param): (readonly [string, ShapeValue])[] => {
    if (param.quantity === 'footprint') return planEntries(shape);
    const typed = shape[param.key];
    if (param.quantity === 'courts') return [];
    if (typed !== undefined) return [[param.key, inside(param, typed)]];
    return param.oneOf || param.default === undefined ? [] : [[param.key, param.default]];
  });
  return Object.fromEntries(entries);
}

function inside(param: Param, typed: ShapeValue): ShapeValue {
  if (param.quantity === 'pitch') return fromDegrees(Number(typed));
  if (param.quantity !== 'side-pitches') return typed;
  return Object.fromEntries(
    Object.entries(typed).map(([side, pitch]) => [side, typeof pitch === 'number' ? fromDegrees(pitch) : 'gable']),
  );
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
