import { type ReactElement, useId, useState } from 'react';
import { useBench } from '../bench.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import { useRoof } from '../places/use-roof.ts';
import { PlanOnSheet } from '../plan/plan-drawing.tsx';
import { removeCorner, type Spot } from '../plan/plan-edits.ts';
import { getAt } from '../state/file-path.ts';
import { laying } from './laying-store.ts';
import { useOffcut } from './use-offcut.ts';

/** Paper: an offcut drawn on squared paper, as its print stands upright; null where it is none. */
export const OffcutSheet = ({ index }: { readonly index: number }): ReactElement | null => {
  const hand = useRoof();
  const plan = useOffcut(index);
  const hint = useId();
  const name = useBench(
    (state) => getAt(state.file, ['stock', index, 'name']) ?? getAt(state.file, ['stock', index, 'id']),
  );
  const [chosen, setChosen] = useState<Spot | null>(null);
  if (hand === null || plan === null) return null;
  const fewer = chosen === null ? null : removeCorner(plan.rings, chosen);
  return (
    <section className="sheet" aria-label="The offcut">
      <header className="sheet-head">
        <h2>{String(name ?? 'Offcut')}</h2>
        <p>The offcut as its print stands upright.</p>
        <button type="button" className="key court-key" onClick={() => laying.setState({ offcut: null })}>
          Back to the sheets
        </button>
      </header>
      <PlanOnSheet plan={plan} hand={hand} says="lengths" describedBy={hint} onChoose={setChosen} />
      <div className={`plan-words ${plan.issues.length > 0 ? 'is-refused' : ''}`} aria-live="polite">
        {plan.issues.length > 0 ? (
          <>
            {plan.issues.slice(0, 1).map((issue) => (
              <IssueSentence key={issue.code + issue.path} issue={issue} />
            ))}
            <p>
              <button type="button" className="link" onClick={plan.giveUp}>
                Back to the outline as it was
              </button>
            </p>
          </>
        ) : (
          <p id={hint}>
            Drag a corner, or the middle of a side to add one. By keys: Tab to a corner, arrows move it, Delete takes it
            away, Insert adds the next.
          </p>
        )}
        {fewer !== null && chosen !== null && (
          <div className="keys">
            <button
              type="button"
              className="key"
              onClick={() => {
                plan.edit(fewer);
                setChosen(null);
              }}
            >
              Take corner {chosen.index + 1} away
            </button>
          </div>
        )}
      </div>
    </section>
  );
};
