import { LevaPanel, useControls, useCreateStore } from 'leva';
import { Components, createPlugin, useInputContext } from 'leva/plugin';
import type { ReactElement } from 'react';
import type { FieldSpec } from './field-spec.ts';
import { levaTheme } from './leva-theme.ts';
import { ChoiceBox, TypedBox } from './typed-field.tsx';

/**
 * Our rows in leva. leva reverts text it cannot read without a word, so its rows and labels are used and the boxes are
 * ours: they read and write the project file, show their own errors, and leave undo to our store.
 */
const { Row, Label } = Components as Record<'Row' | 'Label', (props: Record<string, unknown>) => ReactElement>;

interface RowValue {
  readonly spec: FieldSpec;
}

const FieldRow = (): ReactElement => {
  const { label, value, id } = useInputContext<{ label: ReactElement; value: RowValue; id: string }>();
  const Box = value.spec.quantity === 'choice' ? ChoiceBox : TypedBox;
  return (
    <Row input className="field-row">
      <Label>{label}</Label>
      <Box spec={value.spec} id={id} />
    </Row>
  );
};

const fieldRow = createPlugin<RowValue, RowValue, object>({
  component: FieldRow,
  normalize: (input: RowValue) => ({ value: { spec: input.spec }, settings: {} }),
});

/** A flat leva panel of its own store; remount it (`key`) when the list of fields changes. */
export const LevaFields = ({ fields }: { readonly fields: readonly FieldSpec[] }): ReactElement => {
  const store = useCreateStore();
  useControls(
    () =>
      Object.fromEntries(
        fields.map((spec) => [
          spec.key,
          fieldRow({ spec, label: spec.label, ...(spec.help ? { hint: spec.help } : {}) } as never),
        ]),
      ),
    { store },
  );
  return <LevaPanel store={store} fill flat hideCopyButton titleBar={false} theme={levaTheme} />;
};
