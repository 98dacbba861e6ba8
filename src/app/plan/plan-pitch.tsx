import type { ReactElement } from 'react';
import { frontMeasures } from '../../core/solid/measure.ts';
import { formatPitch } from '../../core/units/units.ts';
import type { RoofAtHand } from '../places/use-roof.ts';
import { PlanBox } from './plan-box.tsx';
import type { Side } from './plan-drawing.tsx';
import type { PlanAtHand } from './use-plan.ts';

const GABLE = 'gable';

interface PlanPitchProps {
  readonly plan: PlanAtHand;
  readonly hand: RoofAtHand;
  readonly side: Side;
  readonly describedBy: string;
}

/** On an eave: its pitch, and a key that makes a gable of it. */
export const PlanPitch = ({ plan, hand, side, describedBy }: PlanPitchProps): ReactElement => {
  const value = plan.said?.[side.id];
  const isGable = value === GABLE;
  const solid = hand.roof.made?.solid;
  const front = solid === undefined ? '' : formatPitch(frontMeasures(solid).pitch);
  return (
    <>
      {isGable ? (
        <span className="plan-gable">gable</span>
      ) : (
        <PlanBox
          label={`Pitch of the side ${side.title}`}
          quantity="pitch"
          value={value}
          placeholder={front}
          describedBy={describedBy}
          onTake={(typed, gesture) => plan.saySide(side.id, typed, gesture)}
        />
      )}
      <button
        type="button"
        className="plan-gable-key"
        aria-pressed={isGable}
        aria-label={`Gable on the side ${side.title}`}
        title="Gable"
        onClick={() => plan.saySide(side.id, isGable ? undefined : GABLE)}
      >
        <svg viewBox="0 0 16 16" aria-hidden="true">
          <path d="M2 13V8l6-6 6 6v5z" />
        </svg>
      </button>
    </>
  );
};
