import { type ReactElement, useId } from 'react';
import type { MadeLayer } from '../../core/make-roof.ts';
import { edgeTitle } from '../../core/solid/edge-title.ts';
import { bench, useBench } from '../bench.ts';
import { joinWords } from '../draw/join-words.ts';

interface EdgeListProps {
  readonly layer: MadeLayer;
  readonly index: number;
  readonly title: string;
}

/** Every edge of a layer where paper meets paper: for the keyboard what pointing is for the hand. */
export const EdgeList = ({ layer, index, title }: EdgeListProps): ReactElement => {
  const id = useId();
  const selected = useBench((state) => state.selected);
  const value = useBench(({ edgeAtHand }) =>
    edgeAtHand?.roof === selected && edgeAtHand.layer === index ? edgeAtHand.edge : '',
  );
  const edges = layer.solid.edges.flatMap((edge, i) => (edge.faces.length === 2 ? [{ edge, i }] : []));
  const choose = (edge: string): void =>
    bench.store.setState({ edgeAtHand: edge === '' ? null : { roof: selected, layer: index, edge } });
  return (
    <div className="edge-list">
      <label htmlFor={id}>Edges</label>
      <select
        id={id}
        className="plain-field"
        aria-label={`Edges of ${title}`}
        value={value}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="">Point at one, or choose…</option>
        {edges.map(({ edge, i }) => (
          <option key={edge.id} value={edge.id}>
            {edgeTitle(layer.solid, i)} ({joinWords(layer, i)})
          </option>
        ))}
      </select>
    </div>
  );
};
