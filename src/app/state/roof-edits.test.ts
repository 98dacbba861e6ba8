import { describe, expect, it } from 'vitest';
import { type MadeRoof, produce } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { findKind, kinds } from '../../core/roofs/catalogue.ts';
import { blankProject } from './blank-project.ts';
import { getAt, type JsonObject, setAt } from './file-path.ts';
import {
  bodyPlan,
  changeBody,
  changeKind,
  giveMember,
  measuredValue,
  type RoofContext,
  typeOutline,
} from './roof-edits.ts';

const make = (typed: JsonObject, units: 'in' | 'mm'): MadeRoof | null => {
  const file = setAt(blankProject(units), ['roofs', 0], typed) as JsonObject;
  const resolved = resolveProject(file);
  return resolved.ok ? (produce(resolved.value.project).roofs[0] ?? null) : null;
};

const contextOf = (typed: JsonObject, units: 'in' | 'mm'): RoofContext => {
  const roof = make(typed, units);
  const definition = findKind(String(typed['kind']));
  if (roof === null || definition === undefined) throw new Error('the roof to start with does not read');
  return { typed, roof, definition, units, scale: 1 };
};

const firstThatStands = (candidates: readonly JsonObject[], units: 'in' | 'mm'): MadeRoof['made'] =>
  candidates.map((one) => make(one, units)?.made ?? null).find((made) => made !== null) ?? null;

describe.each(['in', 'mm'] as const)('choices of a whole roof, %s', (units) => {
  const start = contextOf(getAt(blankProject(units), ['roofs', 0]) as JsonObject, units);

  it('turns every kind into every other, and there is always a roof', () => {
    for (const one of kinds) {
      const from = changeKind(start, one).find((typed) => make(typed, units)?.made) as JsonObject;
      for (const next of kinds) {
        expect(
          firstThatStands(changeKind(contextOf(from, units), next), units),
          `${one.id} to ${next.id}`,
        ).not.toBeNull();
      }
    }
  });

  it('changes nothing on the table when another of the group is given', () => {
    const solid = start.roof.made?.solid;
    for (const key of ['pitch', 'slant', 'rise']) {
      const [typed] = giveMember(start, ['rise', 'pitch', 'slant'], key);
      const made = typed === undefined ? null : firstThatStands([typed], units);
      expect(Object.keys(getAt(typed, ['shape']) as object)).toEqual([key]);
      expect(measuredValue(made?.solid as never, 'rise')).toBeCloseTo(
        measuredValue(solid as never, 'rise') as number,
        3,
      );
    }
  });

  it('writes the outline out at the size it had, and takes the body away', () => {
    const [typed] = typeOutline(start);
    expect(typed?.['overhang']).toBeUndefined();
    expect(firstThatStands([typed as JsonObject], units)?.solid.vertices).toEqual(start.roof.made?.solid.vertices);
    const bare = changeBody(start, 'none')[0] as JsonObject;
    expect(bodyPlan(bare)).toBe('none');
    expect(firstThatStands([bare], units)).not.toBeNull();
  });
});
