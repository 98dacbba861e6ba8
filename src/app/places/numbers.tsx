import { type ReactElement, useMemo } from 'react';
import { useStyle } from '../bench.ts';
import { roofNumbers } from '../draw/roof-numbers.ts';
import { showAngles, showArea, showLength } from '../draw/show-number.ts';
import type { RoofAtHand } from './use-roof.ts';

/** Rise, slant, hips, angles and area of the roof as it stands: the nearest mark, and beside it the exact size. */
export const Numbers = ({ hand }: { readonly hand: RoofAtHand }): ReactElement | null => {
  const style = useStyle();
  const solid = hand.roof.made?.solid;
  const numbers = useMemo(() => (solid === undefined ? [] : roofNumbers(solid)), [solid]);
  if (numbers.length === 0) return null;
  return (
    <dl className="numbers">
      {numbers.map((number) => (
        <div key={number.name}>
          <dt>{number.name}</dt>
          {number.quantity === 'length' ? (
            <>
              <dd className="first">{showLength(number.value, style)[0]}</dd>
              <dd className="second">{showLength(number.value, style)[1]}</dd>
            </>
          ) : (
            <dd className="first is-wide">
              {number.quantity === 'angles' ? showAngles(number.values) : showArea(number.value, style.units)}
            </dd>
          )}
        </div>
      ))}
    </dl>
  );
};
