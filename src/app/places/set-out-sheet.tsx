import { type ReactElement, useMemo } from 'react';
import { formatMark, MM_PER_INCH, rulerUnits } from '../../core/units/units.ts';
import { useChosenRoof, useStyle } from '../bench.ts';
import { setOutTables } from '../draw/set-out-rows.ts';

/** Set out: each panel's measures with the nearest mark of the maker's ruler and what rounding costs. */
export const SetOutSheet = (): ReactElement => {
  const roof = useChosenRoof();
  const { ruler } = useStyle();
  const solid = roof?.made?.layers[0]?.solid ?? roof?.made?.solid;
  const tables = useMemo(() => (solid === undefined ? [] : setOutTables(solid, ruler)), [solid, ruler]);
  const isInches = rulerUnits(ruler) === 'in';
  const exact = (mm: number): string => (isInches ? `${(mm / MM_PER_INCH).toFixed(3)} in` : `${mm.toFixed(2)} mm`);
  const off = (error: number): string => {
    const text = exact(Math.abs(error));
    return Number.parseFloat(text) === 0 ? 'exact' : `${text} ${error > 0 ? 'long' : 'short'}`;
  };
  return (
    <section className="sheet" aria-label="Measures on the ruler">
      <header className="sheet-head">
        <h2>{roof?.spec.title ?? 'No roof'}</h2>
        <p>Mark these on the wrong side of the paper with your own ruler.</p>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling table has to be reached by keyboard. */}
      <section className="sheet-body is-padded" tabIndex={0} aria-label="Measures of every panel">
        {tables.map((table) => (
          <table className="set-out" key={table.panels.join()}>
            <caption>
              {table.panels.length > 4
                ? `${table.panels[0]} and ${table.panels.length - 1} like it`
                : table.panels.join(', ')}
            </caption>
            <thead>
              <tr>
                <th scope="col">Measure</th>
                <th scope="col">Mark at</th>
                <th scope="col">True size</th>
                <th scope="col">The mark is</th>
              </tr>
            </thead>
            <tbody>
              {table.rows.map((row) => (
                <tr key={row.name}>
                  <th scope="row">{row.name}</th>
                  <td className="mark">{formatMark(row.length, ruler)}</td>
                  <td>{exact(row.length)}</td>
                  <td>{off(row.error)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ))}
      </section>
    </section>
  );
};
