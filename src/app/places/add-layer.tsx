import type { ReactElement } from 'react';
import type { JsonObject } from '../state/file-path.ts';
import { type AddedLayer, addLayer } from '../state/layer-edits.ts';
import type { RoofAtHand } from './use-roof.ts';

/** A further layer; from the inside out a shell lies under every cover. */
export const AddLayer = ({
  hand,
  stock,
}: {
  readonly hand: RoofAtHand;
  readonly stock: readonly JsonObject[];
}): ReactElement => {
  const ids = stock.map((paper) => String(paper['id']));
  const add = (as: AddedLayer): void => void hand.change(addLayer(hand.typed, as, ids));
  const hasShell = hand.roof.spec.layers.some((layer) => layer.as === 'shell');
  return (
    <section className="group">
      <h3>Another layer</h3>
      <div className="keys">
        <button type="button" className="key" onClick={() => add('cover')}>
          Add a paper cover
        </button>
        {!hasShell && (
          <button type="button" className="key" onClick={() => add('shell')}>
            Add a folded shell
          </button>
        )}
      </div>
      <p className="note">
        A cover is glued over what is there. A shell is card that stands by itself, under the covers.
      </p>
    </section>
  );
};
