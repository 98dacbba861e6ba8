import { type ReactElement, useEffect, useId, useState } from 'react';
import { rulerStep } from '../../core/units/units.ts';
import { bench, useBench, useStyle } from '../bench.ts';
import { Either } from '../either.tsx';
import { IssueSentence } from '../issue-sentence.tsx';
import { type RoofAtHand, useRoof } from '../places/use-roof.ts';
import { PlanOnSheet } from './plan-drawing.tsx';
import { addCourt, type Edited, removeCorner, removeCourt, type Spot } from './plan-edits.ts';
import { hasSides, type PlanAtHand, type PlanOf, plansOf, usePlan } from './use-plan.ts';

/** Body and Roof, seen from above: the plan on squared paper over the table, edited where it is drawn. */
export const PlanSheet = (): ReactElement | null => {
  const hand = useRoof();
  const place = useBench((state) => state.place);
  const [chosen, setChosen] = useState<PlanOf>('body');
  const plans = hand === null ? [] : plansOf(hand);
  const of = plans.includes(chosen) ? chosen : plans[0];
  const isIdle = hand !== null && (of === undefined || (place === 'roof' && !hasSides(hand)));

  // Another kind, body or roof, of which nothing can be drawn: it stands on the table again.
  useEffect(() => {
    if (isIdle) bench.store.setState({ [place === 'roof' ? 'roofView' : 'bodyView']: 'standing' });
  }, [isIdle, place]);

  if (hand === null || of === undefined || isIdle) return null;
  return (
    <section className="sheet" aria-label="The plan">
      <DrawnPlan key={of} hand={hand} of={of} plans={plans} onChoose={setChosen} />
    </section>
  );
};

interface DrawnPlanProps {
  readonly hand: RoofAtHand;
  readonly of: PlanOf;
  readonly plans: readonly PlanOf[];
  readonly onChoose: (of: PlanOf) => void;
}

const DrawnPlan = ({ hand, of, plans, onChoose }: DrawnPlanProps): ReactElement | null => {
  const plan = usePlan(hand, of);
  const isRoofPlace = useBench((state) => state.place === 'roof');
  const hint = useId();
  const [chosen, setChosen] = useState<Spot | null>(null);
  if (plan === null) return null;
  return (
    <>
      <header className="sheet-head">
        <h2>{hand.roof.spec.title}</h2>
        <p>{of === 'body' ? 'Walls from above, front below.' : 'Eave from above, front below.'}</p>
        {plans.length > 1 && !isRoofPlace && (
          <Either
            legend="What is drawn"
            isLegendUnseen
            choices={[
              { value: 'body', title: 'Walls' },
              { value: 'eave', title: 'Eave' },
            ]}
            value={of}
            onChoose={(value) => onChoose(value as PlanOf)}
          />
        )}
        {plan.canHaveCourts && !isRoofPlace && <CourtKey plan={plan} />}
      </header>
      <PlanOnSheet
        plan={plan}
        hand={hand}
        says={isRoofPlace && plan.said !== null ? 'pitches' : 'lengths'}
        describedBy={hint}
        onChoose={setChosen}
      />
      <PlanWords plan={plan} isRoofPlace={isRoofPlace} id={hint} chosen={chosen} onLeave={() => setChosen(null)} />
    </>
  );
};

const CourtKey = ({ plan }: { readonly plan: PlanAtHand }): ReactElement => {
  const { ruler } = useStyle();
  return (
    <button
      type="button"
      className="key court-key"
      onClick={() => plan.editFirst(addCourt(plan.rings, rulerStep(ruler)))}
    >
      Add a court
    </button>
  );
};

interface PlanWordsProps {
  readonly plan: PlanAtHand;
  readonly isRoofPlace: boolean;
  readonly id: string;
  /** The corner that was taken hold of last. */
  readonly chosen: Spot | null;
  readonly onLeave: () => void;
}

/** A corner was just added in the middle of a side. */
const isStraight = ({ issues }: PlanAtHand): boolean =>
  issues.length > 0 && issues.every(({ code }) => code === 'straight-corner');

const isRefused = (plan: PlanAtHand): boolean => plan.issues.length > 0 && !isStraight(plan);

/** Under the plan: how a hand or the keys change it, or why the last change has no roof. */
const PlanWords = ({ plan, isRoofPlace, id, chosen, onLeave }: PlanWordsProps): ReactElement => (
  <div
    className={`plan-words ${chosen === null ? '' : 'has-keys'} ${isRefused(plan) ? 'is-refused' : ''}`}
    aria-live="polite"
  >
    {isStraight(plan) ? (
      <p>The new corner still lies on the straight: drag it, or move it with the arrow keys.</p>
    ) : isRefused(plan) ? (
      <>
        {plan.issues.slice(0, 2).map((issue) => (
          <IssueSentence key={issue.code + issue.path} issue={issue} />
        ))}
        <p>
          The table keeps the last roof that worked.{' '}
          <button type="button" className="link" onClick={plan.giveUp}>
            Back to it
          </button>
        </p>
      </>
    ) : (
      <p id={id}>
        {isRoofPlace
          ? 'Each eave takes a pitch of its own, such as 9/12 or 40; empty, it slopes as the front does.'
          : 'Drag a corner, or the middle of a side to add one. By keys: Tab to a corner, arrows move it, Delete takes it away, Insert adds the next.'}
      </p>
    )}
    {!isRoofPlace && chosen !== null && <ChosenKeys plan={plan} chosen={chosen} onLeave={onLeave} />}
  </div>
);

interface ChosenKeysProps {
  readonly plan: PlanAtHand;
  readonly chosen: Spot;
  readonly onLeave: () => void;
}

/** For a hand without keys: what else can be done with the corner it touched last. */
const ChosenKeys = ({ plan, chosen, onLeave }: ChosenKeysProps): ReactElement | null => {
  const { ring, index } = chosen;
  if (plan.rings[ring]?.[index] === undefined) return null;
  const fewer = removeCorner(plan.rings, chosen);
  const leave = (edited: Edited): void => {
    plan.edit(edited);
    onLeave();
  };
  return (
    <div className="keys">
      {fewer !== null && (
        <button type="button" className="key" onClick={() => leave(fewer)}>
          Take corner {index + 1} away
        </button>
      )}
      {ring > 0 && (
        <button type="button" className="key" onClick={() => leave(removeCourt(plan.rings, ring))}>
          Close this court
        </button>
      )}
    </div>
  );
};
