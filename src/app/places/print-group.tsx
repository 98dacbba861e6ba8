import type { ReactElement } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import { showGap } from '../../core/fit/fit.ts';
import type { SeamRun } from '../../core/layout/print-match.ts';
import { edgeTitle } from '../../core/solid/edge-title.ts';
import { useBench, useProduction, useStyle } from '../bench.ts';
import { seamSummary, seamWords } from '../draw/seam-words.ts';
import { LitLine } from '../lit-line.tsx';
import { seamsOf } from '../stage/finish.ts';
import { layerTitles } from './layer-title.ts';

const signs: Readonly<Record<SeamRun, string>> = {
  'runs-on': 'M1 6h34',
  meets: 'M1 9h34M8 9V2m7 7V2m7 7V2m7 7V2',
  breaks: 'm1 9 5-7 5 7 5-7 5 7 5-7 5 7',
};
const order: readonly SeamRun[] = ['breaks', 'meets', 'runs-on'];

/** Paper: whether the print goes on over the seams of the roof at hand as it is laid, every seam to be looked up on the roof. */
export const PrintGroup = (): ReactElement | null => {
  const production = useProduction();
  const selected = useBench((state) => state.selected);
  const { units } = useStyle();
  const roof = production?.roofs[selected];
  if (!production || !roof) return null;
  const { stock } = production.project;
  const titles = layerTitles(roof.spec.layers.map(({ as }) => as));
  const layers = cutLayers(roof).flatMap((layer, l) => {
    const matches = seamsOf(layer, { roof: selected, layer: l, copy: 0 }, production.sheets, stock);
    return matches.length === 0 ? [] : [{ layer, l, matches }];
  });
  if (layers.length === 0) return null;
  return (
    <section className="group" aria-label="The print over the seams">
      <h3>The print over the seams</h3>
      {layers.map(({ layer, l, matches }) => (
        <div key={titles[l] ?? 'Seat'}>
          <p>
            {layers.length > 1 && `${titles[l] ?? 'Seat'}: `}
            {seamSummary(matches)}
          </p>
          <details>
            <summary>{matches.length === 1 ? 'The seam' : `All ${matches.length} seams`}</summary>
            <ul className="lit-lines">
              {matches
                .toSorted((a, b) => order.indexOf(a.run) - order.indexOf(b.run))
                .map((match) => (
                  <li key={match.edge} className="seam-run">
                    <LitLine
                      by={`print ${selected} ${l} ${match.edge}`}
                      roof={selected}
                      place={{ layer: l, edges: [layer.solid.edges[match.edge]?.id ?? ''] }}
                    >
                      {match.mark}, {edgeTitle(layer.solid, match.edge)}: {seamWords(match, (mm) => showGap(mm, units))}
                    </LitLine>
                    <svg viewBox="0 0 36 12" aria-hidden="true">
                      <path d={signs[match.run]} />
                    </svg>
                  </li>
                ))}
            </ul>
          </details>
        </div>
      ))}
      {(roof.spec.copies ?? 1) > 1 && <p className="note">Of the first of {roof.spec.copies} copies.</p>}
    </section>
  );
};
