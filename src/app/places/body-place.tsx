import type { ReactElement } from 'react';
import type { Param, RoofParam } from '../../core/roofs/definition.ts';
import { bench } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { plansOf } from '../plan/use-plan.ts';
import { getAt, type Json, setAt } from '../state/file-path.ts';
import { type BodyPlan, bodyPlan, changeBody } from '../state/roof-edits.ts';
import { EaveGiven } from './eave-given.tsx';
import { KindPick } from './kind-pick.tsx';
import { MeasuredBody } from './measured-body.tsx';
import { PlanViewPick } from './plan-view-pick.tsx';
import { SeatGroup } from './seat-group.tsx';
import { Stands } from './stands.tsx';
import { useTier } from './tier-hand.ts';
import { type RoofAtHand, useRoof } from './use-roof.ts';

/** First of the work: what stands there already, and how far the roof comes out over it. */
export const BodyPlace = (): ReactElement | null => {
  const hand = useRoof();
  if (hand === null) return null;
  const plan = bodyPlan(hand.typed);
  const under = hand.definition.params.find(isRoofOnBody);
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
      <section className="group">
        <h3>The eave round it</h3>
        {under === undefined ? (
          <EaveGiven hand={hand} hasBody={plan !== 'none'} />
        ) : (
          <EaveUnder hand={hand} param={under} hasBody={plan !== 'none'} />
        )}
        <FieldPanel fields={[fasciaField(hand)]} />
        <Stands hand={hand} />
      </section>
      {plan !== 'none' && <SeatGroup hand={hand} />}
    </>
  );
};

const isRoofOnBody = (param: Param): param is RoofParam => param.quantity === 'roof' && param.on === 'body';

interface EaveUnderProps {
  readonly hand: RoofAtHand;
  readonly param: RoofParam;
  readonly hasBody: boolean;
}

/** The eave of a roof of roofs is that of the one on the body. */
const EaveUnder = ({ hand, param, hasBody }: EaveUnderProps): ReactElement | null => {
  const tier = useTier(hand, param);
  return tier === null ? null : <EaveGiven hand={tier} hasBody={hasBody} />;
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

/** The sizes of a body, or of the wall that a roof within the roof stands on. */
export const bodyFields = (
  { at, typed }: RoofAtHand,
  plan: BodyPlan,
  heightHelp = 'From the table to the top of the wall.',
): FieldSpec[] => {
  const length = (key: string, label: string, help: string): FieldSpec => ({
    key,
    label,
    help,
    path: at('body', key),
    quantity: 'length',
  });
  const height = length('height', 'Height', heightHelp);
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
