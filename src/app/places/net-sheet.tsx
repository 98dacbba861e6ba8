import { type ReactElement, useEffect, useState } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import { useBench, useChosenRoof } from '../bench.ts';
import { Either } from '../either.tsx';
import { layerTitles } from './layer-title.ts';
import { LineLegend } from './line-legend.tsx';
import { NetDrawing } from './net-drawing.tsx';

/** Paper: the plain net with every measure, on a sheet over the table. */
export const NetSheet = (): ReactElement => {
  const roof = useChosenRoof();
  const [chosen, setChosen] = useState(0);
  const meant = useBench((state) => state.edgeAtHand?.layer ?? state.lit?.place.layer ?? null);

  // What is pointed at or lit on another layer brings that layer to the top.
  useEffect(() => {
    if (meant !== null) setChosen(meant);
  }, [meant]);

  const layers = roof === null ? [] : cutLayers(roof);
  const titles = layerTitles((roof?.made?.layers ?? []).map((one) => one.spec.as));
  const layer = chosen < layers.length ? chosen : 0;
  const net = layers[layer]?.net;
  return (
    <section className="sheet" aria-label="The net with its measures">
      <header className="sheet-head">
        <h2>{roof?.spec.title ?? 'No roof'}</h2>
        <p>The net as it lies flat, seen from its printed side.</p>
        {layers.length > 1 && (
          <Either
            legend="Layer"
            isLegendUnseen
            choices={layers.map((_, i) => ({ value: String(i), title: titles[i] ?? 'Seat' }))}
            value={String(layer)}
            onChoose={(value) => setChosen(Number(value))}
          />
        )}
      </header>
      <NetDrawing layer={layer} />
      {net !== undefined && (
        <footer className="sheet-foot">
          <LineLegend net={net} />
        </footer>
      )}
    </section>
  );
};
