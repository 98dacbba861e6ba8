import type { ReactElement } from 'react';
import { isTyped } from '../../core/roofs/definition.ts';
import { bench } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { plansOf } from '../plan/use-plan.ts';
import { getAt, type Json, setAt } from '../state/file-path.ts';
import { type BodyPlan, bodyPlan, changeBody, followBody, typeOutline } from '../state/roof-edits.ts';
import { GivenGroup } from './given-group.tsx';
import { KindPick } from './kind-pick.tsx';
import { MeasuredBody } from './measured-body.tsx';
import { PlanViewPick } from './plan-view-pick.tsx';
import { groupOf, shapeField } from './shape-fields.ts';
import { Stands } from './stands.tsx';
import { type RoofAtHand, useRoof } from './use-roof.ts';

/** First of the work: what stands there already, and how far the roof comes out over it. */
export const BodyPlace = (): ReactElement | null => {
  const hand = useRoof();
  if (hand === null) return null;
  const plan = bodyPlan(hand.typed);
  return (
    <>
      <section className="group">
        <h3>Kind of roof</h3>
        <KindPick hand={hand} />
      </section>
      <section className="group">
        <h3>The body under it</h3>
        <Either
          legend="Plan of the body"
          isLegendUnseen
          choices={[
            { value: 'rectangle', title: 'Rectangle' },
            { value: 'polygon', title: 'Regular' },
            { value: 'round', title: 'Round' },
            { value: 'measured', title: 'Measured' },
            { value: 'none', title: 'None' },
          ]}
          value={plan}
          onChoose={(next) => choosePlan(hand, next as BodyPlan)}
        />
        {plan === 'measured' && <MeasuredBody hand={hand} />}
        {plan !== 'none' && <FieldPanel fields={bodyFields(hand, plan)} />}
        {plansOf(hand).length > 0 && <PlanViewPick of="bodyView" />}
        {plan === 'none' && <p className="note">Without a body the roof stands on the table by its typed sizes.</p>}
      </section>
      <Outline hand={hand} hasBody={plan !== 'none'} />
    </>
  );
};

/** A measured plan is seen from above at once. */
const choosePlan = (hand: RoofAtHand, plan: BodyPlan): void => {
  if (hand.change(changeBody(hand.context, plan)) && plan === 'measured') bench.store.setState({ bodyView: 'plan' });
};

const polygonSizes = [
  { key: 'side', label: 'Side' },
  { key: 'acrossCorners', label: 'Across corners' },
  { key: 'acrossFlats', label: 'Across flats' },
];

const bodyFields = ({ at, typed }: RoofAtHand, plan: BodyPlan): FieldSpec[] => {
  const length = (key: string, label: string, help: string): FieldSpec => ({
    key,
    label,
    help,
    path: at('body', key),
    quantity: 'length',
  });
  const height = length('height', 'Height', 'From the table to the top of the wall.');
  if (plan === 'none') return [];
  if (plan === 'measured') return [height];
  if (plan === 'round') return [length('diameter', 'Diameter', 'Outer wall to outer wall.'), height];
  if (plan === 'rectangle') {
    return [
      length('width', 'Width', 'Outer wall to outer wall, left to right (west to east).'),
      length('depth', 'Depth', 'Outer wall to outer wall, front to back (south to north).'),
      height,
    ];
  }
  const size = polygonSizes.find(({ key }) => getAt(typed, ['body', key]) !== undefined) ?? polygonSizes[0];
  return [
    {
      key: 'sides',
      label: 'Sides',
      path: at('body', 'sides'),
      quantity: 'count',
      write: (sides) => setSides(at, sides),
    },
    length(size?.key ?? 'side', size?.label ?? 'Side', 'The size of the regular plan.'),
    height,
  ];
};

/** A roof that follows its body gets as many sides as the body. */
const setSides = (at: RoofAtHand['at'], sides: Json | undefined): boolean => {
  const { file } = bench.store.getState();
  const follows = getAt(file, at('overhang')) !== undefined && getAt(file, at('shape', 'sides')) !== undefined;
  if (!follows || typeof sides !== 'number' || sides < 3 || sides > 24)
    return bench.setField(at('body', 'sides'), sides);
  bench.edit((now) => setAt(setAt(now, at('body', 'sides'), sides), at('shape', 'sides'), sides) as typeof now);
  bench.dropDraft(at('body', 'sides'));
  return true;
};

const Outline = ({ hand, hasBody }: { readonly hand: RoofAtHand; readonly hasBody: boolean }): ReactElement => {
  const { typed, definition, context, change } = hand;
  const follows = typed['overhang'] !== undefined;
  const plan = groupOf(definition, 'plan');
  const sizes = definition.params.filter(isTyped).filter((param) => param.outline && param.oneOf === undefined);
  return (
    <section className="group">
      <h3>The eave round it</h3>
      {hasBody && (
        <Either
          legend="How the eave is given"
          isLegendUnseen
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
      <FieldPanel fields={[fasciaField(hand)]} />
      <Stands hand={hand} />
    </section>
  );
};

/** An upright strip under the eave, for every kind. */
const fasciaField = ({ at }: RoofAtHand): FieldSpec => ({
  key: 'fascia',
  label: 'Fascia',
  help: 'Height of an upright strip that hangs down from the eave.',
  path: at('fascia'),
  quantity: 'length',
  fallback: 'none',
  canLeaveOut: true,
});

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
