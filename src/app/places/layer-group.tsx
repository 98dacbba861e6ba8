import type { ReactElement } from 'react';
import { defaults, LEAST_THICKNESS_THAT_COUNTS } from '../../core/project/limits.ts';
import type { LayerSpec } from '../../core/project/project.ts';
import { bench, useStyle } from '../bench.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactText } from '../fields/typed-text.ts';
import { type FilePath, getAt, type JsonObject } from '../state/file-path.ts';
import { moveLayer, removeLayer } from '../state/layer-edits.ts';
import { countHandJoins, forgetHandJoins } from '../state/seam-edits.ts';
import { EdgeList } from './edge-list.tsx';
import type { RoofAtHand } from './use-roof.ts';

interface LayerGroupProps {
  readonly hand: RoofAtHand;
  /** Of the layer, from the inside out. */
  readonly index: number;
  readonly title: string;
  readonly stock: readonly JsonObject[];
}

/** One layer: what it is cut from, how it is joined, and where it lies among the others. */
export const LayerGroup = ({ hand, index, title, stock }: LayerGroupProps): ReactElement | null => {
  const { units } = useStyle();
  const { layers } = hand.roof.spec;
  const spec = layers[index];
  if (spec === undefined) return null;
  const flapWidth = exactText(defaults.flapWidth[units], units);
  const move = (by: 1 | -1): boolean =>
    hand.change([moveLayer(hand.typed, index, by)], { refusal: 'The layers cannot lie so.' });
  return (
    <section className="group" aria-label={title}>
      <h3>{title}</h3>
      <FieldPanel fields={layerFields(hand.at('layers', index), spec, { stock, flapWidth })} />
      <LayerEdges hand={hand} index={index} title={title} />
      {layers.length > 1 && (
        <div className="layer-keys">
          <button type="button" className="link" disabled={index === 0} onClick={() => move(-1)}>
            Further in<span className="unseen">: {title}</span>
          </button>
          <button type="button" className="link" disabled={index === layers.length - 1} onClick={() => move(1)}>
            Further out<span className="unseen">: {title}</span>
          </button>
          <button
            type="button"
            className="link"
            onClick={() => hand.change([removeLayer(hand.typed, index)])}
            aria-label={`Take this layer off: ${title}`}
          >
            Take this layer off
          </button>
        </div>
      )}
    </section>
  );
};

/** A layer as it was made; while the roof cannot be made it has no edges to show. */
const LayerEdges = (props: LayerEdgesProps): ReactElement | null => {
  const layer = props.hand.roof.made?.layers[props.index];
  if (layer === undefined) return null;
  const { hand, index, title } = props;
  const count = countHandJoins(hand.typed, index);
  return (
    <>
      <EdgeList layer={layer} index={index} title={title} />
      {count > 0 && (
        <button type="button" className="link" onClick={() => hand.change([forgetHandJoins(hand.typed, index)])}>
          {count === 1
            ? 'One edge is joined by hand: leave it to the pieces again'
            : `${count} edges are joined by hand: leave them to the pieces again`}
        </button>
      )}
    </>
  );
};

type LayerEdgesProps = Omit<LayerGroupProps, 'stock'>;

interface LayerChoices {
  readonly stock: readonly JsonObject[];
  /** What counts while the file says nothing, as it would be typed. */
  readonly flapWidth: string;
}

const layerFields = (at: FilePath, spec: LayerSpec, choices: LayerChoices): FieldSpec[] =>
  spec.as === 'board'
    ? [stockField(at, spec, choices), ...nextStock(at, spec, choices), edgesField(at, spec)]
    : [stockField(at, spec, choices), ...nextStock(at, spec, choices), ...paperFields(at, spec, choices)];

const stockField = (at: FilePath, spec: LayerSpec, { stock }: LayerChoices): FieldSpec => ({
  key: 'stock',
  label: 'Cut from',
  path: spec.stock.length > 1 ? [...at, 'stock', 0] : [...at, 'stock'],
  read: (file) => {
    const ids = getAt(file, [...at, 'stock']);
    return Array.isArray(ids) ? ids[0] : ids;
  },
  quantity: 'choice',
  choices: stock.map((paper) => ({ value: String(paper['id']), label: String(paper['name'] ?? paper['id']) })),
});

/** The paper after the first, where there is another to choose from: what finds no room on the first is cut from it. */
const nextStock = (at: FilePath, spec: LayerSpec, { stock }: LayerChoices): FieldSpec[] =>
  stock.length < 2
    ? []
    : [
        {
          key: 'nextStock',
          label: 'Then from',
          help: 'What finds no room on the first paper.',
          path: [...at, 'stock', 1],
          quantity: 'choice',
          fallback: '',
          choices: [
            { value: '', label: 'No other' },
            ...stock
              .filter((paper) => paper['id'] !== spec.stock[0])
              .map((paper) => ({ value: String(paper['id']), label: String(paper['name'] ?? paper['id']) })),
          ],
          read: (file) => spec.stock[1] ?? (getAt(file, [...at, 'stock', 1]) as string | undefined) ?? '',
          write: (value, gesture) => {
            const [first = '', , ...others] = spec.stock;
            const ids = value === '' || value === undefined ? [first] : [first, String(value), ...others];
            return bench.setField([...at, 'stock'], ids.length === 1 ? first : ids, gesture);
          },
        },
      ];

/** How thick edges meet; square is what the file says by leaving it out. */
const edgesField = (at: FilePath, spec: LayerSpec): FieldSpec => ({
  key: 'edges',
  label: 'Edges meet',
  help: 'Square: at their inner edges on hips. Mitred: cut aslant, so that whole edges meet. Butted: one laps the other.',
  path: [...at, 'edges'],
  quantity: 'choice',
  fallback: spec.edges ?? 'square',
  choices: [
    { value: 'square', label: 'Square' },
    { value: 'mitred', label: 'Mitred' },
    { value: 'butted', label: 'Butted' },
  ],
});

const paperFields = (at: FilePath, spec: LayerSpec, { flapWidth }: LayerChoices): FieldSpec[] => [
  {
    key: 'pieces',
    label: 'Pieces',
    path: [...at, 'pieces'],
    quantity: 'choice',
    fallback: spec.pieces,
    choices: [
      { value: 'per-panel', label: 'One for each side' },
      { value: 'one-piece', label: 'All in one' },
      { value: 'fewest', label: 'As few as fit the paper' },
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
  {
    key: 'thickness',
    label: 'Its thickness',
    help: 'Thin paper counts as having none, so that a panel fills a strip exactly.',
    path: [...at, 'thickness'],
    quantity: 'choice',
    fallback: 'ignore',
    choices: [
      { value: 'ignore', label: `Counts from ${LEAST_THICKNESS_THAT_COUNTS} mm on` },
      { value: 'allow', label: 'Always counts' },
    ],
  },
];
