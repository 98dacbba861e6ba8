import type { ReactElement } from 'react';
import { formatLength, MM_PER_INCH } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { RulerPick } from '../ruler-pick.tsx';
import { useRoof } from './use-roof.ts';

/** Fourth: which ruler, and how well a roof set out with it closes. */
export const SetOutPlace = (): ReactElement | null => {
  const hand = useRoof();
  const style = useStyle();
  if (hand === null) return null;
  const fit = hand.roof.made?.fit;
  return (
    <>
      <section className="group">
        <h3>Your ruler</h3>
        <RulerPick className="ruler-row" />
        <p className="note">
          Edges that are glued together are rounded together: they stay alike, even where one of them then leaves its
          nearest mark by one.
        </p>
      </section>
      {fit !== undefined && (
        <section className="group">
          <h3>What rounding costs</h3>
          <p className="fit-sentence">{fit.sentence}</p>
          <dl className="follows">
            <dt>Between the two sides of a seam</dt>
            <dd>{gap(fit.seamMismatch, style.units)}</dd>
            <dt>At the peak</dt>
            <dd>{gap(fit.peakGap, style.units)}</dd>
            {fit.overhang !== null && (
              <>
                <dt>Overhang, least</dt>
                <dd>{formatLength(fit.overhang.min, style)}</dd>
                <dt>Overhang, most</dt>
                <dd>{formatLength(fit.overhang.max, style)}</dd>
              </>
            )}
          </dl>
          <p className="note">A smaller mark, or sizes that fall on marks, close better.</p>
        </section>
      )}
    </>
  );
};

const gap = (mm: number, units: 'in' | 'mm'): string => {
  const text = units === 'in' ? (mm / MM_PER_INCH).toFixed(3) : mm.toFixed(2);
  return Number(text) === 0 ? 'none' : `${text} ${units}`;
};
