import { type ReactElement, useState } from 'react';
import { isTyped, type RoofParam, type TypedParam } from '../../core/roofs/definition.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { RoofPicture } from '../roof-picture.tsx';
import { getAt } from '../state/file-path.ts';
import { type BodyPlan, bodyPlan, changeBody } from '../state/roof-edits.ts';
import { bodyFields } from './body-place.tsx';
import { EaveGiven } from './eave-given.tsx';
import { GivenGroup } from './given-group.tsx';
import { KindPick } from './kind-pick.tsx';
import { isOptional } from './left-out.ts';
import { MeasuredBody } from './measured-body.tsx';
import { groupOf, shapeField } from './shape-fields.ts';
import { useTier } from './tier-hand.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The roofs that a roof is made of, and the wall between them, from below upwards. */
export const Tiers = ({ hand }: { readonly hand: RoofAtHand }): ReactElement => {
  const { params } = hand.definition;
  const upper = params.find((param) => param.quantity === 'roof' && param.on === 'wall');
  return (
    <>
      {params.map((param) => {
        if (param.quantity === 'roof') return <Tier key={param.key} hand={hand} param={param} />;
        if (param.quantity !== 'wall' || upper?.quantity !== 'roof') return null;
        return <TierWall key={param.key} hand={hand} param={upper} title={param.label} help={param.help} />;
      })}
    </>
  );
};

interface TierProps {
  readonly hand: RoofAtHand;
  readonly param: RoofParam;
}

/** One of the roofs: its kind, its eave, its sizes. */
const Tier = ({ hand, param }: TierProps): ReactElement | null => {
  const tier = useTier(hand, param);
  if (tier === null) return null;
  const { definition, typed } = tier;
  const heights = groupOf(definition, 'height');
  const alone = definition.params.filter(isTyped).filter((one) => one.oneOf === undefined && !one.outline);
  const leftOut = alone.filter(isOptional);
  const own = alone.filter((one) => !isOptional(one));
  const field = (one: TypedParam): FieldSpec => shapeField(one, tier);
  const isSaid = (one: TypedParam): boolean => getAt(typed, ['shape', one.key]) !== undefined;
  const followsBody = param.on === 'body' && typed['overhang'] !== undefined;
  return (
    <section className="group tier" aria-label={param.label}>
      <h3>{param.label}</h3>
      <TierKind tier={tier} label={param.label} />
      {heights.length > 0 && (
        <GivenGroup legend={`How high the ${param.label.toLowerCase()} is`} params={heights} hand={tier} />
      )}
      {own.length > 0 && <FieldPanel fields={own.map(field)} />}
      {param.on === 'wall' && <EaveGiven hand={tier} hasBody legend="How its eave is given" />}
      {param.on === 'body' && !followsBody && <EaveGiven hand={tier} hasBody={false} />}
      {followsBody && <p className="note">Its eave follows the body and its overhang (see Body).</p>}
      {leftOut.length > 0 && (
        <details key={definition.id} className="more" open={leftOut.some(isSaid)}>
          <summary>Only if you want it otherwise</summary>
          <FieldPanel fields={leftOut.map(field)} />
        </details>
      )}
    </section>
  );
};

/** What kind it is; opened, all it could be. */
const TierKind = ({ tier, label }: { readonly tier: RoofAtHand; readonly label: string }): ReactElement => {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details className="tier-kind" open={isOpen} onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>
        <RoofPicture roof={tier.roof} />
        <span>
          <b>{tier.definition.title}</b>
          <span className="tier-turn">Another kind</span>
        </span>
      </summary>
      {isOpen && <KindPick hand={tier} legend={`Kind of ${label.toLowerCase()}`} isTier />}
    </details>
  );
};

/** Plans that a hand can give a wall on a roof; a round one that the file gives stays until it is changed. */
const wallPlans: readonly { readonly value: BodyPlan; readonly title: string }[] = [
  { value: 'rectangle', title: 'Rectangle' },
  { value: 'polygon', title: 'Regular' },
  { value: 'measured', title: 'Measured' },
];

interface TierWallProps extends TierProps {
  readonly title: string;
  readonly help: string;
}

/** The wall, as the body of the roof that stands on it. */
const TierWall = ({ hand, param, title, help }: TierWallProps): ReactElement | null => {
  const tier = useTier(hand, param);
  if (tier === null) return null;
  const plan = bodyPlan(tier.typed);
  return (
    <section className="group tier" aria-label={title}>
      <h3>{title}</h3>
      <Either
        legend={`Plan of the ${title.toLowerCase()}`}
        isLegendUnseen
        choices={plan === 'round' ? [...wallPlans, { value: plan, title: 'Round' }] : wallPlans}
        value={plan}
        onChoose={(next) => tier.change(changeBody(tier.context, next as BodyPlan))}
      />
      {plan === 'measured' && <MeasuredBody hand={tier} isOnTable={false} />}
      <FieldPanel fields={bodyFields(tier, plan, help)} />
    </section>
  );
};
