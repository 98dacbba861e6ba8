import type { ReactElement } from 'react';
import { formatLength } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import type { RoofAtHand } from './use-roof.ts';

/** How the roof sits on its body, in one sentence. */
export const Stands = ({ hand }: { readonly hand: RoofAtHand }): ReactElement | null => {
  const style = useStyle();
  const overhang = hand.roof.made?.fit.overhang;
  if (!overhang) return null;
  const least = formatLength(overhang.min, style);
  const most = formatLength(overhang.max, style);
  if (overhang.min < 0) return <p className="note">On the smallest side the roof is too small for its body.</p>;
  return (
    <p className="note">
      {least === most
        ? `Stands out ${least} all round.`
        : `Stands out ${least} where it is least, ${most} where it is most.`}
    </p>
  );
};
