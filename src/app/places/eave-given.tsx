import type { ReactElement } from 'react';
import { isTyped } from '../../core/roofs/definition.ts';
import { bench } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import type { Json } from '../state/file-path.ts';
import { followBody, typeOutline } from '../state/roof-edits.ts';
import { GivenGroup } from './given-group.tsx';
import { groupOf, shapeField } from './shape-fields.ts';
import type { RoofAtHand } from './use-roof.ts';

interface EaveGivenProps {
  readonly hand: RoofAtHand;
  /** Whether there is something that the eave can stand out over. */
  readonly hasBody: boolean;
  /** Stands over the two ways where no heading does. */
  readonly legend?: string;
}

/** The eave by how far it stands out over the body, or by its own sizes. */
export const EaveGiven = ({ hand, hasBody, legend }: EaveGivenProps): ReactElement => {
  const { typed, definition, context, change } = hand;
  const follows = typed['overhang'] !== undefined;
  const plan = groupOf(definition, 'plan');
  const sizes = definition.params.filter(isTyped).filter((param) => param.outline && param.oneOf === undefined);
  return (
    <>
      {hasBody && (
        <Either
          legend={legend ?? 'How the eave is given'}
          isLegendUnseen={legend === undefined}
          choices={[
            { value: 'overhang', title: 'By its overhang' },
            { value: 'sizes', title: 'By its sizes' },
          ]}
          value={follows ? 'overhang' : 'sizes'}
          onChoose={(value) => change(value === 'overhang' ? followBody(context) : typeOutline(context))}
        />
      )}
      {follows && <FieldPanel fields={overhangFields(hand)} />}
      {!follows && sizes.length > 0 && <FieldPanel fields={sizes.map((param) => shapeField(param, hand))} />}
      {!follows && plan.length > 0 && <GivenGroup legend="Size given as" params={plan} hand={hand} />}
    </>
  );
};

/** Where the kind has gable ends the verge may stand out otherwise than the eave; the file then has both. */
const overhangFields = ({ at, typed, definition }: RoofAtHand): FieldSpec[] => {
  const overhang = typed['overhang'];
  const isPair = typeof overhang === 'object' && overhang !== null;
  const eave: FieldSpec = {
    key: 'eave',
    label: 'Overhang',
    help: 'From the outer wall out to the eave, in plan.',
    path: isPair ? at('overhang', 'eave') : at('overhang'),
    quantity: 'length',
  };
  if (!definition.hasVerge) return [eave];
  const verge: FieldSpec = {
    key: 'verge',
    label: 'At the gables',
    help: 'From the gable wall out to the verge; as at the eave unless said otherwise.',
    path: at('overhang', 'verge'),
    quantity: 'length',
    ...(isPair ? {} : { fallback: overhang as Json }),
    write: (value) =>
      isPair
        ? bench.setField(at('overhang', 'verge'), value)
        : bench.setField(at('overhang'), pairOf(overhang as Json, value)),
  };
  return [{ ...eave, label: 'At the eaves' }, verge];
};

const pairOf = (eave: Json, verge: Json | undefined): Json => (verge === undefined ? eave : { eave, verge });
