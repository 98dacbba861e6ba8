import type { ReactElement } from 'react';
import { formatLength, toDegrees } from '../core/units/units.ts';
import { bench, useBench, useChosenRoof, useStyle } from './bench.ts';
import { edgeTitle } from './draw/edge-title.ts';
import { joinWords } from './draw/join-words.ts';

/** The tag tied to the edge that was pointed at: what it is, and how it is joined. */
export const EdgeTag = (): ReactElement | null => {
  const atHand = useBench((state) => (state.edgeAtHand?.roof === state.selected ? state.edgeAtHand : null));
  const roof = useChosenRoof();
  const style = useStyle();
  const layer = atHand === null ? undefined : roof?.made?.layers[atHand.layer];
  const index = layer?.solid.edges.findIndex(({ id }) => id === atHand?.edge) ?? -1;
  const edge = layer?.solid.edges[index];
  if (layer === undefined || edge === undefined) return null;
  return (
    <section className="edge-tag" aria-label="The edge at hand" aria-live="polite">
      <div className="slip-head">
        <h2>{edgeTitle(layer.solid, index)}</h2>
        <button type="button" className="link" onClick={() => bench.store.setState({ edgeAtHand: null })}>
          Put away
        </button>
      </div>
      <p>
        {formatLength(edge.length, style)}
        {edge.dihedral !== null && ` · ${Number(toDegrees(edge.dihedral).toFixed(1))}° inside`}
        {' · '}
        {joinWords(layer, index)}
      </p>
    </section>
  );
};
