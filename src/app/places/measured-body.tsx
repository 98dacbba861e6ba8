import type { ReactElement } from 'react';
import { at } from '../../core/geometry/polygon.ts';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../../core/geometry/vector.ts';
import { toDegrees } from '../../core/units/units.ts';
import { bench } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { resolveTyped } from '../load-workshop.ts';
import { namesOf } from '../plan/plan-text.ts';
import { type FilePath, formatPath, type Json, type JsonObject, setAt } from '../state/file-path.ts';
import { omit, sizeText } from '../state/roof-edits.ts';
import { CornersBox } from './corners-box.tsx';
import type { RoofAtHand } from './use-roof.ts';

type Form = 'corners' | 'diagonal' | 'angles';

const formOf = (body: JsonObject): Form =>
  body['corners'] !== undefined ? 'corners' : body['angles'] !== undefined ? 'angles' : 'diagonal';

const keysOf: Readonly<Record<Form, readonly string[]>> = {
  corners: ['corners'],
  diagonal: ['lengths', 'diagonal'],
  angles: ['lengths', 'angles'],
};

/** Inside angle at the end of a side, degrees to a hundredth. */
const angleAfter = (outline: readonly Vec2[], side: number): number => {
  const [a, b, c] = [at(outline, side), at(outline, side + 1), at(outline, side + 2)];
  const [into, out] = [sub2(b, a), sub2(c, b)];
  const turn = Math.atan2(cross2(into, out), dot2(into, out));
  return Number((180 - toDegrees(turn)).toFixed(2));
};

/** The same plan, measured in another way; the courts are then measured from the first corner too. */
const measureBy = ({ typed, roof, context }: RoofAtHand, form: Form): JsonObject[] => {
  const outline = roof.spec.body?.outline ?? [];
  const [first] = outline;
  if (first === undefined) return [];
  const size = (mm: number): string => sizeText(context, mm);
  const said: Readonly<Record<string, () => Json>> = {
    corners: () => outline.map((p) => sub2(p, first).map(size)),
    lengths: () => outline.map((p, i) => size(distance2(p, at(outline, i + 1)))),
    diagonal: () => size(distance2(at(outline, 0), at(outline, 2))),
    angles: () => outline.map((_, i) => angleAfter(outline, i)),
  };
  const body = omit((typed['body'] ?? {}) as JsonObject, ['corners', 'lengths', 'diagonal', 'angles', 'courts']);
  const plan = Object.fromEntries(keysOf[form].map((key) => [key, said[key]?.() ?? null]));
  const courts = roof.spec.body?.courts?.map((court) => court.map((p) => sub2(p, first).map(size)));
  return [{ ...typed, body: { ...plan, ...body, ...(courts === undefined ? {} : { courts }) } }];
};

interface MeasuredBodyProps {
  readonly hand: RoofAtHand;
  /** Its corners are moved in the plan on the table; else they are typed. */
  readonly isOnTable?: boolean;
}

/** A plan that was measured: how, and what the ruler said where it is not drawn by its corners. */
export const MeasuredBody = ({ hand, isOnTable = true }: MeasuredBodyProps): ReactElement => {
  const body = (hand.typed['body'] ?? {}) as JsonObject;
  const form = formOf(body);
  const sides = hand.roof.spec.body?.outline.length ?? 4;
  return (
    <>
      <Either
        legend="Measured by"
        choices={[
          { value: 'corners', title: 'Corners' },
          { value: 'diagonal', title: 'Diagonal', spoken: 'Four sides and a diagonal', disabled: sides !== 4 },
          { value: 'angles', title: 'Angles', spoken: 'Sides and the angles between them' },
        ]}
        value={form}
        onChoose={(next) => hand.change(measureBy(hand, next as Form))}
      />
      {form !== 'corners' && <FieldPanel fields={measureFields(hand, body, form)} />}
      {form === 'corners' && isOnTable && (
        <p className="note">Its {sides} corners are drawn and moved in the plan on the table.</p>
      )}
      {form === 'corners' && !isOnTable && (
        <CornersBox
          at={hand.at('body', 'corners')}
          corners={body['corners']}
          label="Corners, going round: right, back; …"
        />
      )}
    </>
  );
};

const measureFields = ({ at: path, roof }: RoofAtHand, body: JsonObject, form: Form): FieldSpec[] => {
  const list = (key: string): readonly Json[] => (Array.isArray(body[key]) ? (body[key] as readonly Json[]) : []);
  const outline = roof.spec.body?.outline ?? [];
  const [names = []] = outline.length === 0 ? [] : namesOf([outline]);
  const title = (i: number): string => names[i]?.title ?? `Side ${i + 1}`;
  const lengths = list('lengths').map(
    (_, i): FieldSpec => ({
      key: `length${i}`,
      label: title(i),
      help:
        i === 0
          ? 'The front, from its left end to its right one; then on to the right, all round.'
          : `Length of this side.`,
      path: path('body', 'lengths', i),
      quantity: 'length',
    }),
  );
  const angles = list('angles').map(
    (_, i): FieldSpec => ({
      key: `angle${i}`,
      label: `${title(i)} to ${title((i + 1) % Math.max(1, lengths.length))}`,
      help: 'Inside angle between these sides, degrees; over 180 where the corner points inwards.',
      path: path('body', 'angles', i),
      quantity: 'pitch',
    }),
  );
  const diagonal: FieldSpec = {
    key: 'diagonal',
    label: 'Diagonal',
    help: 'From the left end of the front to the corner opposite.',
    path: path('body', 'diagonal'),
    quantity: 'length',
  };
  const fields =
    form === 'angles' ? lengths.flatMap((field, i) => [field, ...angles.slice(i, i + 1)]) : [...lengths, diagonal];
  const paths = fields.map((field) => field.path);
  return fields.map((field) => ({
    ...field,
    write: (value, gesture) => takeTogether(paths, field.path, value, gesture),
  }));
};

/**
 * Measures of one plan prove each other: one alone may contradict those that stand there from before. So what was refused
 * waits in its box, and all are taken as soon as together they make a plan.
 */
const takeTogether = (
  paths: readonly FilePath[],
  path: FilePath,
  value: Json | undefined,
  gesture?: string,
): boolean => {
  const { file, drafts } = bench.store.getState();
  const waiting = paths.filter((one) => one !== path && drafts[formatPath(one)] !== undefined);
  if (value === undefined || waiting.length === 0) return bench.setField(path, value, gesture);
  const together = waiting.reduce<JsonObject>(
    (now, one) => {
      const text = drafts[formatPath(one)]?.text ?? '';
      return setAt(now, one, /^\d+(\.\d+)?$/.test(text) ? Number(text) : text) as JsonObject;
    },
    setAt(file, path, value) as JsonObject,
  );
  if (!resolveTyped(together).ok) return bench.setField(path, value, gesture);
  bench.edit(() => together, gesture);
  for (const one of [...waiting, path]) bench.dropDraft(one);
  return true;
};
