import type { ReactElement } from 'react';
import { rulers, rulerUnits } from '../core/units/units.ts';
import { bench, useStyle } from './bench.ts';
import { whenReadable } from './load-workshop.ts';

const titles: Readonly<Record<string, string>> = {
  '1/8in': '1/8 in',
  '1/16in': '1/16 in',
  '1/32in': '1/32 in',
  '1mm': '1 mm',
  '0.5mm': '0.5 mm',
};

/** The smallest mark of the maker's ruler, in the units on show. */
export const RulerPick = ({ className = 'ruler-pick' }: { readonly className?: string }): ReactElement => {
  const { units, ruler } = useStyle();
  return (
    <label className={className}>
      <span>Ruler</span>
      <select
        aria-label="Smallest mark of the ruler"
        value={ruler}
        onChange={(event) => {
          const { value } = event.target;
          whenReadable(() => bench.setField(['ruler'], value));
        }}
      >
        {rulers
          .filter((one) => rulerUnits(one) === units || one === ruler)
          .map((one) => (
            <option key={one} value={one}>
              {titles[one]}
            </option>
          ))}
      </select>
    </label>
  );
};
