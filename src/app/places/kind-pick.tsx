import { type ReactElement, type RefObject, useEffect, useId, useMemo, useRef, useState } from 'react';
import { kinds } from '../../core/roofs/catalogue.ts';
import { hasTiers, type RoofDefinition } from '../../core/roofs/definition.ts';
import { bench } from '../bench.ts';
import { drawRoof } from '../draw/roof-picture.ts';
import { type RoofTop, roofTop } from '../draw/roof-top.ts';
import { Either } from '../either.tsx';
import { PictureOf } from '../roof-picture.tsx';
import { changeKind } from '../state/change-kind.ts';
import { exampleSolid } from '../state/example.ts';
import { getAt, type JsonObject } from '../state/file-path.ts';
import type { RoofContext } from '../state/roof-edits.ts';
import { findKinds } from './find-kinds.ts';
import type { RoofAtHand } from './use-roof.ts';

/** From so many kinds on, a word finds one sooner than the eye. */
const MANY = 8;

const tops: readonly { readonly value: RoofTop | 'any'; readonly title: string; readonly spoken: string }[] = [
  { value: 'any', title: 'Any', spoken: 'Any top' },
  { value: 'peak', title: 'Peak', spoken: 'A peak at the top' },
  { value: 'ridge', title: 'Ridge', spoken: 'A ridge at the top' },
  { value: 'other', title: 'Other', spoken: 'Another top: flat, one slope, a valley' },
];

const hasTop = (kind: RoofDefinition, top: RoofTop | 'any'): boolean => {
  if (top === 'any') return true;
  const solid = exampleSolid(kind);
  return solid !== null && roofTop(solid) === top;
};

interface KindPickProps {
  readonly hand: RoofAtHand;
  /** What a reader hears before the kinds. */
  readonly legend?: string;
  /** For a roof within a roof: only kinds that are one roof by themselves. */
  readonly isTier?: boolean;
}

/** Every kind of roof as a picture of its first example; the one that is chosen says in a sentence what it is. */
export const KindPick = ({ hand, legend = 'Kind of roof', isTier = false }: KindPickProps): ReactElement => {
  const [words, setWords] = useState('');
  const [top, setTop] = useState<RoofTop | 'any'>('any');
  const tiles = useRef<HTMLFieldSetElement>(null);
  const name = useId();
  const all = isTier ? kinds.filter((kind) => !hasTiers(kind)) : kinds;
  const shown = findKinds(all, words).filter((kind) => hasTop(kind, top));
  const choose = useChoice(hand);
  const chosen = hand.definition.id;

  // The chosen kind is in sight when the place is opened; only its own list is moved for it.
  useEffect(() => {
    const list = tiles.current;
    const tile = list?.querySelector<HTMLElement>(`[data-kind="${chosen}"]`);
    if (!list || !tile) return;
    list.scrollTop = tile.offsetTop - (list.clientHeight - tile.offsetHeight) / 2;
    list.scrollLeft = tile.offsetLeft - (list.clientWidth - tile.offsetWidth) / 2;
  }, [chosen]);

  return (
    <>
      {all.length > MANY && (
        <div className="kind-find">
          <Either
            legend={isTier ? `${legend}: what it comes to at the top` : 'What it comes to at the top'}
            isLegendUnseen
            choices={tops}
            value={top}
            onChoose={(value) => setTop(value as RoofTop | 'any')}
          />
          <input
            type="text"
            className="plain-field"
            aria-label={isTier ? `Find a ${legend.toLowerCase()}` : 'Find a kind of roof'}
            placeholder="Find: barn, tower, flat…"
            autoComplete="off"
            spellCheck={false}
            value={words}
            onChange={(event) => setWords(event.target.value)}
            onKeyDown={(event) => {
              if (event.key === 'Escape') setWords('');
            }}
          />
          <p className="unseen" role="status">
            {(words.trim() !== '' || top !== 'any') && `${shown.length} of ${all.length} kinds`}
          </p>
        </div>
      )}
      <fieldset ref={tiles} className="kinds" onBlur={choose.leave}>
        <legend className="unseen">{legend}</legend>
        {shown.map((kind) => (
          <Tile
            key={kind.id}
            kind={kind}
            name={name}
            isChosen={kind.id === chosen}
            onChoose={() => choose.take(kind)}
            list={tiles}
          />
        ))}
        {shown.length === 0 && <p className="note">No kind of roof here is described by these words.</p>}
      </fieldset>
      <p className="note">{hand.definition.summary}</p>
    </>
  );
};

/** The whole roof as it is typed now. */
const roofNow = (): JsonObject => {
  const { file, selected } = bench.store.getState();
  return getAt(file, ['roofs', selected]) as JsonObject;
};

interface Choice {
  readonly take: (kind: RoofDefinition) => void;
  readonly leave: (event: { currentTarget: Element; relatedTarget: EventTarget | null }) => void;
}

/**
 * While a maker looks through the kinds, each is tried on the roof as it was before the first of them: what one kind
 * cannot use is there again for the next, and all of it is one step to undo.
 */
const useChoice = (hand: RoofAtHand): Choice => {
  const looking = useRef<{ from: RoofContext; last: JsonObject } | null>(null);
  return {
    take: (kind) => {
      if (looking.current === null || looking.current.last !== roofNow()) {
        bench.endGesture();
        looking.current = { from: hand.context, last: roofNow() };
      }
      const { from } = looking.current;
      const candidates = kind.id === from.definition.id ? [from.typed] : changeKind(from, kind);
      if (!hand.change(candidates, { gesture: 'kind' })) return;
      looking.current.last = roofNow();
    },
    leave: ({ currentTarget, relatedTarget }) => {
      if (currentTarget.contains(relatedTarget as Node | null)) return;
      looking.current = null;
      bench.endGesture();
    },
  };
};

interface TileProps {
  readonly kind: RoofDefinition;
  readonly name: string;
  readonly isChosen: boolean;
  readonly onChoose: () => void;
  readonly list: RefObject<HTMLElement | null>;
}

/** True from when the element has come near enough to be seen in the list. */
const useNear = (element: RefObject<HTMLElement | null>, list: RefObject<HTMLElement | null>): boolean => {
  const [isNear, setIsNear] = useState(false);
  useEffect(() => {
    if (element.current === null || isNear) return;
    const watch = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) setIsNear(true);
      },
      { root: list.current, rootMargin: '120px' },
    );
    watch.observe(element.current);
    return () => watch.disconnect();
  }, [element, list, isNear]);
  return isNear;
};

const Tile = ({ kind, name, isChosen, onChoose, list }: TileProps): ReactElement => {
  const about = useId();
  const tile = useRef<HTMLLabelElement>(null);
  const isNear = useNear(tile, list);
  const picture = useMemo(() => {
    const solid = isNear ? exampleSolid(kind) : null;
    return solid === null ? null : drawRoof(solid, null, 0);
  }, [kind, isNear]);
  return (
    <label ref={tile} className="kind" data-kind={kind.id} title={kind.summary}>
      <input
        type="radio"
        name={name}
        checked={isChosen}
        aria-label={kind.title}
        aria-describedby={about}
        onChange={onChoose}
      />
      <span className="kind-face" aria-hidden="true">
        {isNear ? <PictureOf picture={picture} /> : <svg className="roof-picture" aria-hidden="true" />}
        <span>{kind.title}</span>
      </span>
      <span id={about} hidden>
        {kind.summary}
      </span>
    </label>
  );
};
