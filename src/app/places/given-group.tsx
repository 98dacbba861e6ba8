import type { ReactElement } from 'react';
import type { TypedParam } from '../../core/roofs/definition.ts';
import { formatPitch } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { showLength } from '../draw/show-number.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import { getAt } from '../state/file-path.ts';
import { giveMember, measuredValue } from '../state/roof-edits.ts';
import { shapeField } from './shape-fields.ts';
import type { RoofAtHand } from './use-roof.ts';

interface GivenGroupProps {
  readonly legend: string;
  readonly params: readonly TypedParam[];
  readonly hand: RoofAtHand;
}

/** Several ways to say one thing: one is given and typed, the others follow and are shown. */
export const GivenGroup = ({ legend, params, hand }: GivenGroupProps): ReactElement => {
  const style = useStyle();
  const { roof, typed, context, change } = hand;
  const keys = params.map((param) => param.key);
  const given = params.find((param) => getAt(typed, ['shape', param.key]) !== undefined) ?? params[0];
  const solid = roof.made?.solid;
  const valueFor = (key: string): number | null => (solid === undefined ? null : measuredValue(solid, key));
  const show = (param: TypedParam, value: number): string =>
    param.quantity === 'pitch' ? formatPitch(value) : showLength(value, style)[0];

  return (
    <>
      <Either
        legend={legend}
        choices={params.map((param) => ({
          value: param.key,
          title: param.label,
          spoken: `Give the ${param.label.toLowerCase()}`,
          disabled: valueFor(param.key) === null,
        }))}
        value={given?.key ?? ''}
        onChoose={(key) => change(giveMember(context, keys, key))}
      />
      {given !== undefined && <FieldPanel fields={[shapeField(given, hand)]} />}
      <dl className="follows">
        {params
          .filter((param) => param !== given)
          .map((param) => {
            const value = valueFor(param.key);
            if (value === null) return null;
            return [
              <dt key={`${param.key} name`}>{param.label} follows</dt>,
              <dd key={param.key}>{show(param, value)}</dd>,
            ];
          })}
      </dl>
    </>
  );
};
