import { describe, expect, it } from 'vitest';
import { type MadeRoof, makeRoof } from '../../core/make-roof.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { findKind, kinds } from '../../core/roofs/catalogue.ts';
import { measureSolid } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { blankProject } from './blank-project.ts';
import { changeKind } from './change-kind.ts';
import { exampleSolid } from './example.ts';
import { getAt, type JsonObject, setAt } from './file-path.ts';
import { newRoof } from './new-roof.ts';
import {
  bodyPlan,
  changeBody,
  giveMember,
  measuredValue,
  omit,
  type RoofContext,
  solidExtents,
  typeOutline,
} from './roof-edits.ts';

const make = (typed: JsonObject, units: 'in' | 'mm'): MadeRoof | null => {
  const file = setAt(blankProject(units), ['roofs', 0], typed) as JsonObject;
  const resolved = resolveProject(file);
  if (!resolved.ok) return null;
  const { project } = resolved.value;
  return makeRoof(project.roofs[0] as MadeRoof['spec'], project, 0);
};

const contextOf = (typed: JsonObject, units: 'in' | 'mm'): RoofContext => {
  const roof = make(typed, units);
  const definition = findKind(String(typed['kind']));
  if (roof === null || definition === undefined) throw new Error('the roof to start with does not read');
  return { typed, roof, definition, units, scale: 1 };
};

const firstThatStands = (candidates: readonly JsonObject[], units: 'in' | 'mm'): MadeRoof['made'] => {
  for (const one of candidates) {
    const made = make(one, units)?.made ?? null;
    if (made !== null) return made;
  }
  return null;
};

const firstTyped = (candidates: readonly JsonObject[], units: 'in' | 'mm'): JsonObject | undefined =>
  candidates.find((one) => make(one, units)?.made);

describe.each(['in', 'mm'] as const)('choices of a whole roof, %s', (units) => {
  const start = contextOf(getAt(blankProject(units), ['roofs', 0]) as JsonObject, units);

  // Every kind into every 36th, in millimetres into others: every kind is come from and gone to.
  const shift = units === 'in' ? 0 : 12;
  it.each(kinds.map((kind, i) => [kind.id, i, kind] as const))('turns a %s into others', (_, i, one) => {
    const from = changeKind(start, one).find((typed) => make(typed, units)?.made) as JsonObject;
    const context = contextOf(from, units);
    for (const next of kinds.filter((_kind, j) => (i + j) % 36 === shift)) {
      const candidates = changeKind(context, next);
      expect(firstThatStands(candidates, units), `${one.id} to ${next.id}`).not.toBeNull();
    }
  });

  it('keeps body, overhang, layers and rise wherever the next kind can stand there', () => {
    const rise = measuredValue(start.roof.made?.solid as never, 'rise') as number;
    const kept = kinds.filter((next) => {
      const [first] = changeKind(start, next).filter((typed) => make(typed, units)?.made);
      const made = make(first as JsonObject, units)?.made;
      expect(first?.['layers'], next.id).toEqual(start.typed['layers']);
      const isKept = first?.['body'] === start.typed['body'] && first?.['overhang'] === start.typed['overhang'];
      // An arch over so narrow a span is no higher than half of it.
      const hasRise = !['frustum', 'barrel'].includes(next.id) && next.params.some(({ key }) => key === 'rise');
      if (isKept && hasRise) expect(measuredValue(made?.solid as never, 'rise'), next.id).toBeCloseTo(rise, 6);
      return isKept;
    });
    // Only plans of other than four sides cannot stand on a square body.
    expect(kinds.filter((kind) => !kept.includes(kind)).map(({ id }) => id)).toEqual([
      'spire',
      'regular-frustum',
      'half-cone-apse',
      'bell-cast-spire',
      'ogee-spire',
      'dome',
      'onion',
      'apse',
      'lean-to-half-spire',
    ]);
  });

  it('keeps an eave that is given by its sizes, or by its corners', () => {
    const shape = { width: '60mm', depth: '44mm', rise: '30mm' };
    const typed: JsonObject = { ...omit(start.typed, ['overhang']), shape };
    const toHip = firstTyped(changeKind(contextOf(typed, units), findKind('hip') as never), units);
    expect(toHip).toEqual({ ...typed, kind: 'hip' });
    const corners = [
      [0, 0],
      [60, 0],
      [62, 40],
      [0, 44],
    ];
    const measured = { ...typed, kind: 'hip', shape: { corners, rise: '30mm' } } as JsonObject;
    const next = firstTyped(changeKind(contextOf(measured, units), findKind('hip-and-valley') as never), units);
    expect(next).toEqual({ ...measured, kind: 'hip-and-valley' });
  });

  it.each(kinds.map((kind) => [kind.id, kind] as const))('begins a new %s of the sizes of its example', (_, kind) => {
    for (const scale of [1, 1 / 87]) {
      const candidates = newRoof({ id: 'new', title: 'New', stock: 'paper' }, kind, { units, scale });
      const file = (typed: JsonObject): JsonObject =>
        setAt({ ...blankProject(units), scale }, ['roofs', 0], typed) as JsonObject;
      const solids = candidates.map((typed) => {
        const resolved = resolveProject(file(typed));
        if (!resolved.ok) return undefined;
        const { project } = resolved.value;
        return makeRoof(project.roofs[0] as MadeRoof['spec'], project, 0).made?.solid;
      });
      const found = solids.find((solid) => solid !== undefined);
      const like = exampleSolid(kind) as Solid;
      const [size, likeSize] = [solidExtents(found?.vertices ?? []), solidExtents(like.vertices)];
      // Sizes on whole marks: of the body and of twice the overhang, each half a sixteenth of an inch off at most.
      expect(Math.abs(size.width - likeSize.width), kind.id).toBeLessThan(3 * 0.8);
      expect(Math.abs(measureSolid(found as Solid).rise - measureSolid(like).rise), kind.id).toBeLessThan(5);
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
    const round = changeBody(start, 'round')[0] as JsonObject;
    expect(bodyPlan(round)).toBe('round');
    expect(Object.keys(getAt(round, ['body']) as object)).toEqual(['diameter', 'height']);
    const bare = changeBody(start, 'none')[0] as JsonObject;
    expect(bodyPlan(bare)).toBe('none');
    expect(firstThatStands([bare], units)).not.toBeNull();
  });
});
