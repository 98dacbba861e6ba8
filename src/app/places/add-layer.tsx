import type { ReactElement } from 'react';
import { LEAST_THICKNESS_THAT_COUNTS } from '../../core/project/limits.ts';
import type { LayerKind } from '../../core/project/project.ts';
import { bench, useProduction } from '../bench.ts';
import { addBoard } from '../state/file-edits.ts';
import { type JsonObject, setAt } from '../state/file-path.ts';
import { addLayer } from '../state/layer-edits.ts';
import type { RoofAtHand } from './use-roof.ts';

interface AddLayerProps {
  readonly hand: RoofAtHand;
  readonly stock: readonly JsonObject[];
}

const keys: readonly { readonly as: LayerKind; readonly title: string; readonly isOnce: boolean }[] = [
  { as: 'board', title: 'Add a board core', isOnce: true },
  { as: 'shell', title: 'Add a folded shell', isOnce: true },
  { as: 'cover', title: 'Add a paper cover', isOnce: false },
];

/** A further layer, from the inside out: a board core, a shell over it, covers over both. */
export const AddLayer = ({ hand, stock }: AddLayerProps): ReactElement => {
  const boards = (useProduction()?.project.stock ?? []).filter(
    ({ thickness }) => thickness >= LEAST_THICKNESS_THAT_COUNTS,
  );
  const has = (as: LayerKind): boolean => hand.roof.spec.layers.some((layer) => layer.as === as);
  const add = (as: LayerKind): void => {
    if (as !== 'board')
      hand.change(
        addLayer(
          hand.typed,
          as,
          stock.map((paper) => String(paper['id'])),
        ),
      );
    else if (boards.length > 0)
      hand.change(
        addLayer(
          hand.typed,
          as,
          boards.map(({ id }) => id),
        ),
      );
    else {
      const { file, id } = addBoard(bench.store.getState().file, hand.context.units);
      hand.changeFile(addLayer(hand.typed, as, [id]).map((roof) => setAt(file, hand.at(), roof) as JsonObject));
    }
  };
  return (
    <section className="group">
      <h3>Another layer</h3>
      <div className="keys">
        {keys
          .filter(({ as, isOnce }) => !isOnce || !has(as))
          .map(({ as, title }) => (
            <button key={as} type="button" className="key" onClick={() => add(as)}>
              {title}
            </button>
          ))}
      </div>
      <p className="note">
        A board core is cut face by face and lies inside everything. A shell is card folded in few pieces. A cover is
        paper glued over what is there.
      </p>
    </section>
  );
};
