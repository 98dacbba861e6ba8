import { type ReactElement, useMemo, useState } from 'react';
import { cutLayers } from '../core/cut-layers.ts';
import type { Issue } from '../core/issue.ts';
import { type MadeLayer, sheetRooms } from '../core/make-roof.ts';
import { type SeamOption, seamOptions } from '../core/net/seam-options.ts';
import type { SeamChoice } from '../core/project/project.ts';
import { edgeTitle } from '../core/solid/edge-title.ts';
import { formatLength, toDegrees } from '../core/units/units.ts';
import { bench, useBench, useProduction, useStyle } from './bench.ts';
import { boardWords } from './draw/board-words.ts';
import { joinOf } from './draw/join-of.ts';
import { joinWords } from './draw/join-words.ts';
import { Either, type EitherChoice } from './either.tsx';
import { IssueSentence } from './issue-sentence.tsx';
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
      {boardWords(layer, index).map((words) => (
        <p key={words}>{words}</p>
      ))}
      {edge.faces.length === 2 && atHand.layer < hand.roof.spec.layers.length && layer.spec.as !== 'board' && (
        <Joins hand={hand} layer={layer} at={atHand.layer} index={index} />
      )}
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

const wordOf = ({ join, on }: SeamChoice): string => (join === 'flap' ? `flap ${on}` : join);

/** Every way to join two panels along an edge; one that cannot be stays out of the file and says why. */
const Joins = ({ hand, layer, at, index }: JoinsProps): ReactElement => {
  const project = useProduction()?.project;
  const { edges, faces } = layer.solid;
  const id = edges[index]?.id ?? '';
  const options = useMemo(
    () =>
      project === undefined
        ? []
        : seamOptions(
            layer.solid,
            { ...layer.spec, sheets: sheetRooms(project, layer.spec), search: { seed: project.seed } },
            id,
          ),
    [layer, project, id],
  );
  const [refused, setRefused] = useState<{ readonly of: readonly SeamOption[]; readonly why: Issue } | null>(null);
  const titleOf = ({ join, on }: SeamChoice): string =>
    join === 'flap' ? `Flap on ${faces.find((face) => face.id === on)?.title ?? on}` : joinTitles[join];
  const now = joinOf(layer, index);
  const take = (join: HandJoin | null): void => {
    setRefused(null);
    hand.change([joinByHand(hand.typed, at, id, join)], { refusal: 'This edge cannot be joined so.' });
  };
  return (
    <>
      <Either
        legend="How it is joined"
        isLegendUnseen
        choices={options.map(
          ({ choice, why }): EitherChoice => ({
            value: wordOf(choice),
            title: titleOf(choice),
            isBarred: why !== null,
          }),
        )}
        value={now === null ? '' : wordOf(now)}
        onChoose={(value) => {
          const option = options.find(({ choice }) => wordOf(choice) === value);
          if (option?.why) setRefused({ of: options, why: option.why });
          else if (option !== undefined) take(option.choice as HandJoin);
        }}
      />
      {refused?.of === options && <IssueSentence issue={refused.why} />}
      {isChosenByHand(hand.typed, at, id) && (
        <button type="button" className="link" onClick={() => take(null)}>
          Chosen by hand: leave it to the pieces again
        </button>
      )}
    </>
  );
};

const joinTitles: Readonly<Record<Exclude<SeamChoice['join'], 'flap'>, string>> = {
  fold: 'Folded',
  strip: 'Strip',
  tape: 'Tape',
};
