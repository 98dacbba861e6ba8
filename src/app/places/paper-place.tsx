import { type ReactElement, useState } from 'react';
import { defaults } from '../../core/project/limits.ts';
import { bench, useBench, useStyle } from '../bench.ts';
import { Either } from '../either.tsx';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactText } from '../fields/typed-text.ts';
import { canDrawStage } from '../stage/probe.ts';
import { addStock, removeStock, usedStock } from '../state/file-edits.ts';
import { type FilePath, getAt, type JsonObject } from '../state/file-path.ts';
import { removeLayer } from '../state/layer-edits.ts';
import { AddLayer } from './add-layer.tsx';
import { EdgeList } from './edge-list.tsx';
import { layerTitles } from './layer-title.ts';
import { type RoofAtHand, useRoof } from './use-roof.ts';

/** Third: what the roof is cut from and how its seams are glued. */
export const PaperPlace = (): ReactElement | null => {
  const hand = useRoof();
  const { units } = useStyle();
  const stock = useBench((state) => getAt(state.file, ['stock'])) as readonly JsonObject[] | undefined;
  const roofs = useBench((state) => getAt(state.file, ['roofs']));
  if (hand === null || stock === undefined) return null;
  const layers = hand.roof.spec.layers;
  const titles = layerTitles(layers.map((layer) => layer.as));
  const used = usedStock(roofs);
  return (
    <>
      <PaperView />
      {layers.map((layer, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two layers may be alike in everything but their place.
        <section className="group" key={i}>
          <h3>{titles[i]}</h3>
          <FieldPanel
            fields={layerFields(
              hand.at('layers', i),
              layer.pieces,
              layer.stock.length > 1,
              stock,
              exactText(defaults.flapWidth[units], units),
            )}
          />
          <LayerEdges hand={hand} index={i} title={titles[i] ?? ''} />
          {layers.length > 1 && (
            <button
              type="button"
              className="link"
              onClick={() => hand.change([removeLayer(hand.typed, i)])}
              aria-label={`Take this layer off: ${titles[i]}`}
            >
              Take this layer off
            </button>
          )}
        </section>
      ))}
      <AddLayer hand={hand} stock={stock} />
      {stock.map((paper, i) => (
        <section className="group" key={String(paper['id'])}>
          <h3>{String(paper['name'] ?? paper['id'])}</h3>
          <FieldPanel fields={stockFields(i)} />
          {stock.length > 1 && !used.has(String(paper['id'])) && (
            <button type="button" className="link" onClick={() => bench.edit((file) => removeStock(file, i))}>
              Put this paper away
            </button>
          )}
        </section>
      ))}
      <div className="keys">
        <button type="button" className="key" onClick={() => bench.edit(addStock)}>
          Another paper
        </button>
      </div>
    </>
  );
};

/** A layer as it was made; while the roof cannot be made it has no edges to show. */
const LayerEdges = (props: LayerEdgesProps): ReactElement | null => {
  const layer = props.hand.roof.made?.layers[props.index];
  return layer === undefined ? null : <EdgeList layer={layer} index={props.index} title={props.title} />;
};

interface LayerEdgesProps {
  readonly hand: RoofAtHand;
  readonly index: number;
  readonly title: string;
}

const paperViews = ['net', 'roof', 'sheets'] as const;

/** The net by itself, the roof as it folds, or the pieces of the whole project on their sheets; the sheets lie on the table, so they need it. */
const PaperView = (): ReactElement | null => {
  const paperView = useBench((state) => state.paperView);
  const [canLay] = useState(canDrawStage);
  if (!canLay) return null;
  return (
    <Either
      legend="On the table"
      choices={[
        { value: 'net', title: 'The net' },
        { value: 'roof', title: 'The roof' },
        { value: 'sheets', title: 'Sheets', spoken: 'Laid on paper' },
      ]}
      value={paperView}
      onChoose={(value) => bench.store.setState({ paperView: paperViews.find((one) => one === value) ?? 'net' })}
    />
  );
};

const layerFields = (
  at: FilePath,
  pieces: string,
  isList: boolean,
  stock: readonly JsonObject[],
  flapWidth: string,
): FieldSpec[] => [
  {
    key: 'stock',
    label: 'Cut from',
    path: isList ? [...at, 'stock', 0] : [...at, 'stock'],
    read: (file) => {
      const ids = getAt(file, [...at, 'stock']);
      return Array.isArray(ids) ? ids[0] : ids;
    },
    quantity: 'choice',
    choices: stock.map((paper) => ({ value: String(paper['id']), label: String(paper['name'] ?? paper['id']) })),
  },
  {
    key: 'pieces',
    label: 'Pieces',
    path: [...at, 'pieces'],
    quantity: 'choice',
    fallback: pieces,
    choices: [
      { value: 'per-panel', label: 'One for each side' },
      { value: 'one-piece', label: 'All in one' },
    ],
  },
  {
    key: 'flaps',
    label: 'Flaps',
    path: [...at, 'flaps', 'on'],
    quantity: 'choice',
    fallback: 'alternate',
    choices: [
      { value: 'alternate', label: 'Every other panel' },
      { value: 'one-side', label: 'One side of each' },
      { value: 'none', label: 'None' },
    ],
  },
  { key: 'flapWidth', label: 'Flap width', path: [...at, 'flaps', 'width'], quantity: 'length', fallback: flapWidth },
  {
    key: 'instead',
    label: 'Without a flap',
    help: 'What joins a seam that has no flap: tape, or a strip of its own, folded along its middle.',
    path: [...at, 'flaps', 'instead'],
    quantity: 'choice',
    fallback: 'tape',
    choices: [
      { value: 'tape', label: 'Tape' },
      { value: 'strip', label: 'A strip of its own' },
    ],
  },
  {
    key: 'hem',
    label: 'Hem',
    help: 'Width of a strip that is turned under at the eave.',
    path: [...at, 'hem'],
    quantity: 'length',
    fallback: 'none',
    canLeaveOut: true,
  },
];

const stockFields = (index: number): FieldSpec[] => {
  const at = (key: string): FilePath => ['stock', index, key];
  return [
    { key: 'name', label: 'Name', path: at('name'), quantity: 'text' },
    {
      key: 'width',
      label: 'Width',
      help: 'Left to right as the print stands upright.',
      path: at('width'),
      quantity: 'length',
    },
    {
      key: 'height',
      label: 'Height',
      help: 'Bottom to top as the print stands upright.',
      path: at('height'),
      quantity: 'length',
    },
    {
      key: 'count',
      label: 'Sheets owned',
      help: 'Empty: as many as needed.',
      path: at('count'),
      quantity: 'count',
      fallback: 'any number',
    },
    { key: 'thickness', label: 'Thickness', path: at('thickness'), quantity: 'length', fallback: 'none' },
    {
      key: 'direction',
      label: 'Print',
      help: 'Whether the print has an up.',
      path: at('direction'),
      quantity: 'choice',
      fallback: 'one-way',
      choices: [
        { value: 'one-way', label: 'Has an up' },
        { value: 'two-way', label: 'Half a turn is fine' },
        { value: 'any', label: 'Any way' },
      ],
    },
  ];
};
