import { type ReactElement, useState } from 'react';
import { bench, useBench } from '../bench.ts';
import { Either } from '../either.tsx';
import { laying } from '../laying/laying-store.ts';
import { canDrawStage } from '../stage/probe.ts';
import { addStock, usedStock } from '../state/file-edits.ts';
import { getAt, type JsonObject } from '../state/file-path.ts';
import { AddLayer } from './add-layer.tsx';
import { LayerGroup } from './layer-group.tsx';
import { layerTitles } from './layer-title.ts';
import { LayoutGroup } from './layout-group.tsx';
import { PrintGroup } from './print-group.tsx';
import { StockGroup } from './stock-group.tsx';
import { useRoof } from './use-roof.ts';

/** Third: what the roof is cut from and how its seams are glued. */
export const PaperPlace = (): ReactElement | null => {
  const hand = useRoof();
  const stock = useBench((state) => getAt(state.file, ['stock'])) as readonly JsonObject[] | undefined;
  const roofs = useBench((state) => getAt(state.file, ['roofs']));
  const paperView = useBench((state) => state.paperView);
  if (hand === null || stock === undefined) return null;
  const titles = layerTitles(hand.roof.spec.layers.map((layer) => layer.as));
  const used = usedStock(roofs);
  return (
    <>
      <PaperView />
      {paperView === 'sheets' && <LayoutGroup />}
      {paperView !== 'net' && <PrintGroup />}
      {titles.map((title, i) => (
        <LayerGroup key={title} hand={hand} index={i} title={title} stock={stock} />
      ))}
      <AddLayer hand={hand} stock={stock} />
      {stock.map((paper, i) => (
        <StockGroup
          key={String(paper['id'])}
          paper={paper}
          index={i}
          canGo={stock.length > 1 && !used.has(String(paper['id']))}
        />
      ))}
      <div className="keys">
        <button type="button" className="key" onClick={() => bench.edit(addStock)}>
          Another paper
        </button>
      </div>
    </>
  );
};

const paperViews = ['net', 'roof', 'sheets'] as const;

/** The net by itself, the roof as it folds (on a table in 3D), or the pieces of the whole project on their sheets. */
const PaperView = (): ReactElement => {
  const paperView = useBench((state) => state.paperView);
  const [canDraw] = useState(canDrawStage);
  return (
    <Either
      legend="On the table"
      choices={[
        { value: 'net', title: 'The net' },
        ...(canDraw ? [{ value: 'roof', title: 'The roof' }] : []),
        { value: 'sheets', title: 'Sheets', spoken: 'Laid on paper' },
      ]}
      value={paperView}
      onChoose={(value) => {
        laying.setState({ offcut: null });
        bench.store.setState({ paperView: paperViews.find((one) => one === value) ?? 'net' });
      }}
    />
  );
};
