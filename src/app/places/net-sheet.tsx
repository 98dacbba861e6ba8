import { type ReactElement, useState } from 'react';
import { useChosenRoof } from '../bench.ts';
import { Either } from '../either.tsx';
import { layerTitles } from './layer-title.ts';
import { LineLegend } from './line-legend.tsx';
import { NetDrawing } from './net-drawing.tsx';

/** Paper: the plain net with every measure, on a sheet over the table. */
export const NetSheet = (): ReactElement => {
  const roof = useChosenRoof();
  const [chosen, setChosen] = useState(0);
  const layers = roof?.made?.layers ?? [];
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
            choices={layerTitles(layers.map((one) => one.spec.as)).map((title, i) => ({ value: String(i), title }))}
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
