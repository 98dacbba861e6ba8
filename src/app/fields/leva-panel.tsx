import { LevaPanel, useControls, useCreateStore } from 'leva';
import { Components, createPlugin, useInputContext } from 'leva/plugin';
import { createContext, type ReactElement, useContext, useId } from 'react';
import type { FieldSpec } from './field-spec.ts';
import { levaTheme } from './leva-theme.ts';
import { ChoiceBox, TypedBox } from './typed-field.tsx';

/**
 * Our rows in leva. leva reverts text it cannot read without a word, so its rows and labels are used and the boxes are
 * ours: they read and write the project file, show their own errors, and leave undo to our store.
 */
const { Row } = Components as Record<'Row', (props: Record<string, unknown>) => ReactElement>;

interface RowValue {
  readonly field: string;
}

/** The fields as they are now, by key: leva keeps what a row was given first. */
const Fields = createContext<ReadonlyMap<string, FieldSpec>>(new Map());

const FieldRow = (): ReactElement | null => {
  const { value } = useInputContext<{ value: RowValue }>();
  // leva's own ids are the same in every panel that has a row of this name.
  const id = useId();
  const spec = useContext(Fields).get(value.field);
  if (spec === undefined) return null;
  const Box = spec.quantity === 'choice' ? ChoiceBox : TypedBox;
  return (
    <Row input className="field-row">
      <label htmlFor={id} title={spec.help}>
        {spec.label}
      </label>
      <Box spec={spec} id={id} />
    </Row>
  );
};

const fieldRow = createPlugin<RowValue, RowValue, object>({
  component: FieldRow,
  normalize: ({ field }: RowValue) => ({ value: { field }, settings: {} }),
});

const rowOf = ({ key, label }: FieldSpec): ReturnType<typeof fieldRow> => fieldRow({ field: key, label } as never);

/** A flat leva panel of its own store; remount it (`key`) when the list of fields changes. */
export const LevaFields = ({ fields }: { readonly fields: readonly FieldSpec[] }): ReactElement => {
  const store = useCreateStore();
  useControls(() => Object.fromEntries(fields.map((spec) => [spec.key, rowOf(spec)])), { store });
  return (
    <Fields.Provider value={new Map(fields.map((spec) => [spec.key, spec]))}>
      <LevaPanel store={store} fill flat hideCopyButton titleBar={false} theme={levaTheme} />
    </Fields.Provider>
  );
};
