import type { ReactElement } from 'react';
import { FieldPanel } from '../fields/field-panel.tsx';
import { GivenGroup } from './given-group.tsx';
import { Numbers } from './numbers.tsx';
import { RightTriangle } from './right-triangle.tsx';
import { groupOf, shapeField } from './shape-fields.ts';
import { useRoof } from './use-roof.ts';

/** Second: how high, how steep, and what follows from it. */
export const RoofPlace = (): ReactElement | null => {
  const hand = useRoof();
  if (hand === null) return null;
  const { definition, typed } = hand;
  const heights = groupOf(definition, 'height');
  const plan = typed['overhang'] === undefined ? groupOf(definition, 'plan') : [];
  const others = definition.params.filter(
    (param) => param.oneOf === undefined && !(param.outline && typed['overhang'] !== undefined),
  );
  return (
    <>
      {heights.length > 0 && (
        <section className="group">
          <h3>How high</h3>
          <GivenGroup legend="You give one, the others follow" params={heights} hand={hand} />
        </section>
      )}
      <section className="group">
        <h3>{definition.title}</h3>
        <FieldPanel fields={others.map((param) => shapeField(param, hand))} />
        {plan.length > 0 && <GivenGroup legend="Size given as" params={plan} hand={hand} />}
        {typed['overhang'] !== undefined && (
          <p className="note">The eave follows the body and its overhang (see Body).</p>
        )}
      </section>
      <section className="group">
        <h3>This roof in numbers</h3>
        <Numbers hand={hand} />
      </section>
      <section className="group">
        <h3>Why the panel is longer than the roof is high</h3>
        <RightTriangle hand={hand} />
      </section>
    </>
  );
};
