import type { ReactElement } from 'react';
import { hasTiers, isTyped, type TypedParam } from '../../core/roofs/definition.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { hasSides } from '../plan/use-plan.ts';
import { getAt } from '../state/file-path.ts';
import { GivenGroup } from './given-group.tsx';
import { isOptional } from './left-out.ts';
import { Numbers } from './numbers.tsx';
import { PlanViewPick } from './plan-view-pick.tsx';
import { RightTriangle } from './right-triangle.tsx';
import { groupOf, shapeField } from './shape-fields.ts';
import { Tiers } from './tiers.tsx';
import { useRoof } from './use-roof.ts';

/** Second: how high, how steep, and what follows from it. */
export const RoofPlace = (): ReactElement | null => {
  const hand = useRoof();
  if (hand === null) return null;
  const { definition, typed } = hand;
  const heights = groupOf(definition, 'height');
  const plan = typed['overhang'] === undefined ? groupOf(definition, 'plan') : [];
  const alone = definition.params.filter(isTyped).filter((param) => param.oneOf === undefined);
  const outline = typed['overhang'] === undefined ? alone.filter((param) => param.outline) : [];
  const sizes = alone.filter((param) => !param.outline && param.quantity !== 'choice');
  const leftOut = sizes.filter(isOptional);
  const own = sizes.filter((param) => !isOptional(param));
  const choices = alone.filter((param) => !param.outline && param.quantity === 'choice');
  const field = (param: TypedParam): FieldSpec => shapeField(param, hand);
  const isSaid = (param: TypedParam): boolean => getAt(typed, ['shape', param.key]) !== undefined;
  const isTiered = hasTiers(definition);
  return (
    <>
      {isTiered && <Tiers hand={hand} />}
      {heights.length > 0 && (
        <section className="group">
          <h3>How high</h3>
          <GivenGroup legend="You give one, the others follow" params={heights} hand={hand} />
        </section>
      )}
      {hasSides(hand) && (
        <section className="group">
          <h3>Each side by itself</h3>
          <PlanViewPick of="roofView" />
          <p className="note">In plan each eave takes a pitch of its own, or becomes a gable.</p>
        </section>
      )}
      {plan.length + outline.length > 0 && (
        <section className="group">
          <h3>The eave</h3>
          {outline.length > 0 && <FieldPanel fields={outline.map(field)} />}
          {plan.length > 0 && <GivenGroup legend="Size given as" params={plan} hand={hand} />}
        </section>
      )}
      {own.length > 0 && (
        <section className="group">
          <h3>Of this {inSentence(definition.title)}</h3>
          <FieldPanel fields={own.map(field)} />
        </section>
      )}
      {leftOut.length > 0 && (
        // Another kind opens or shuts it anew; a maker's own opening stays while the kind does.
        <details key={definition.id} className="group more" open={leftOut.some(isSaid)}>
          <summary>
            <h3>Only if you want it otherwise</h3>
          </summary>
          <FieldPanel fields={leftOut.map(field)} />
        </details>
      )}
      {choices.length > 0 && (
        <section className="group">
          <h3>How it is built</h3>
          <FieldPanel fields={choices.map(field)} />
        </section>
      )}
      {typed['overhang'] !== undefined && !isTiered && (
        <section className="group">
          <h3>The eave</h3>
          <p className="note">It follows the body and its overhang (see Body).</p>
        </section>
      )}
      <section className="group">
        <h3>This roof in numbers</h3>
        <Numbers hand={hand} />
      </section>
      <RightTriangle hand={hand} />
    </>
  );
};

/** `Bell-cast pyramid` in the middle of a sentence. */
const inSentence = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);
