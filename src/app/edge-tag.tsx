import type { ReactElement } from 'react';
import { cutLayers } from '../core/cut-layers.ts';
import type { MadeLayer } from '../core/pipeline.ts';
import { findNotYet } from '../core/project/not-yet.ts';
import { formatLength, toDegrees } from '../core/units/units.ts';
import { bench, useBench, useStyle } from './bench.ts';
import { edgeTitle } from './draw/edge-title.ts';
import { joinOf } from './draw/join-of.ts';
import { joinWords } from './draw/join-words.ts';
import { Either, type EitherChoice } from './either.tsx';
import { type RoofAtHand, useRoof } from './places/use-roof.ts';
import { type HandJoin, isChosenByHand, joinByHand } from './state/seam-edits.ts';

/** The tag tied to the edge that was pointed at: what it is, and how it is joined. */
export const EdgeTag = (): ReactElement | null => {
  const atHand = useBench((state) => (state.edgeAtHand?.roof === state.selected ? state.edgeAtHand : null));
  const hand = useRoof();
  const style = useStyle();
  const layer = atHand === null || hand === null ? undefined : cutLayers(hand.roof)[atHand.layer];
  const index = layer?.solid.edges.findIndex(({ id }) => id === atHand?.edge) ?? -1;
  const edge = layer?.solid.edges[index];
  if (hand === null || atHand === null || layer === undefined || edge === undefined) return null;
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
      {edge.faces.length === 2 &&
        atHand.layer < hand.roof.spec.layers.length &&
        !findNotYet('roofs[].layers[].seams') && <Joins hand={hand} layer={layer} at={atHand.layer} index={index} />}
    </section>
  );
};

interface JoinsProps {
  readonly hand: RoofAtHand;
  readonly layer: MadeLayer;
  /** Of the layer. */
  readonly at: number;
  /** Of the edge. */
  readonly index: number;
}

const wordOf = (join: HandJoin): string => (join.join === 'flap' ? `flap ${join.on}` : join.join);

/** Every way to join two panels along an edge; one that cannot be is refused with the reason. */
const Joins = ({ hand, layer, at, index }: JoinsProps): ReactElement => {
  const { edges, faces } = layer.solid;
  const edge = edges[index];
  const flaps = (edge?.faces ?? []).flatMap((face): { join: HandJoin; title: string }[] => {
    const { id, title } = faces[face] ?? {};
    return id === undefined ? [] : [{ join: { join: 'flap', on: id }, title: `Flap on ${title}` }];
  });
  const ways: readonly { readonly join: HandJoin; readonly title: string }[] = [
    { join: { join: 'fold' }, title: 'Folded' },
    ...flaps,
    { join: { join: 'strip' }, title: 'Strip' },
    { join: { join: 'tape' }, title: 'Tape' },
  ];
  const now = joinOf(layer, index);
  const id = edge?.id ?? '';
  const set = (join: HandJoin | null): boolean =>
    hand.change([joinByHand(hand.typed, at, id, join)], { refusal: 'This edge cannot be joined so.' });
  return (
    <>
      <Either
        legend="How it is joined"
        isLegendUnseen
        choices={ways.map(({ join, title }): EitherChoice => ({ value: wordOf(join), title }))}
        value={now === null ? '' : wordOf(now)}
        onChoose={(value) => {
          const way = ways.find(({ join }) => wordOf(join) === value);
          if (way !== undefined) set(way.join);
        }}
      />
      {isChosenByHand(hand.typed, at, id) && (
        <button type="button" className="link" onClick={() => set(null)}>
          Chosen by hand: leave it to the pieces again
        </button>
      )}
    </>
  );
};
