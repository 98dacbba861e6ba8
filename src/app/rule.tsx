import { type KeyboardEvent, type ReactElement, useEffect, useRef } from 'react';
import { type FoldStop, foldStops } from '../core/fold/stops.ts';
import { bench, useBench, useChosenRoof, useStyle } from './bench.ts';
import { nearestStop, ruleTicks } from './draw/rule-ticks.ts';
import { placeTitles } from './places/place-titles.ts';
import { type BenchState, places } from './state/bench-store.ts';
import { travelTo } from './travel.ts';

const heights = { long: 20, half: 14, quarter: 10, short: 6 } as const;

/** The graduation of one edge; decoration, as on the steel rule it is drawn after. */
const Graduation = ({ stops }: { readonly stops: readonly FoldStop[] }): ReactElement => {
  const { units } = useStyle();
  const ticks = units === 'in' ? ruleTicks(8, 8) : ruleTicks(10, 8);
  return (
    <svg className="graduation" viewBox="0 0 1000 22" preserveAspectRatio="none" aria-hidden="true">
      {ticks.map(({ at, size }) => (
        <line key={at} x1={at * 1000} x2={at * 1000} y1={0} y2={heights[size]} />
      ))}
      {stops.map((stop) => (
        <line key={stop.id} className="stop" x1={stop.t * 1000} x2={stop.t * 1000} y1={0} y2={22} />
      ))}
    </svg>
  );
};

/** Words for the scrubber: the stop it stands on, or the two it stands between. */
const spokenFold = (t: number, stops: readonly FoldStop[]): string => {
  const { index, isOn } = nearestStop(t, stops);
  if (isOn) return stops[index]?.title ?? '';
  const after = stops.findIndex((stop) => stop.t > t);
  return `between ${stops[after - 1]?.title.toLowerCase()} and ${stops[after]?.title.toLowerCase()}`;
};

/** Whether the paper lies flat whatever the scrubber says. */
const isFlat = ({ place, paperView }: BenchState): boolean =>
  place === 'set-out' || (place === 'paper' && paperView !== 'roof');

/** So many stops have room for their names on a narrow rule. */
const FEW = 4;
/** Less than this share of a narrow rule is too little between two names. */
const APART = 0.3;

/** Whether a stop is named where the rule is narrow: of many only the first, the one at hand and those well away from it. */
const hasRoom = (stops: readonly FoldStop[], i: number, at: number): boolean => {
  if (stops.length <= FEW || i < 2 || i === at) return true;
  const isFar = Math.abs((stops[i]?.t ?? 0) - (stops[at]?.t ?? 0)) > APART;
  return isFar && (i === stops.length - 1 || (i === 2 && at < 2));
};

const Fold = (): ReactElement => {
  const roof = useChosenRoof();
  const stops = foldStops(roof === null ? ['cover'] : roof.spec.layers.map((layer) => layer.as));
  const t = useBench((state) => state.t);
  const isStill = useBench(isFlat);
  const shown = isStill ? 0 : t;
  const { index, isOn } = nearestStop(shown, stops);
  return (
    <section className={`fold ${isStill ? 'is-still' : ''}`} aria-label="Fold the net">
      <Graduation stops={stops} />
      <input
        type="range"
        min={0}
        max={1}
        step={0.005}
        value={shown}
        disabled={isStill}
        aria-label="Fold, from flat to on the body"
        aria-valuetext={isStill ? 'Flat' : spokenFold(shown, stops)}
        onChange={(event) => {
          travelTo(null);
          bench.store.setState({ t: Number(event.target.value) });
        }}
      />
      <ul className="stops">
        {stops.map((stop, i) => (
          <li key={stop.id}>
            <button
              type="button"
              className={hasRoom(stops, i, index) ? '' : 'is-quiet'}
              aria-label={stop.title}
              style={{ left: `${stop.t * 100}%` }}
              disabled={isStill}
              aria-pressed={isOn && index === i}
              onClick={() => travelTo(stop.t)}
            >
              {stop.title}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
};

const Places = (): ReactElement => {
  const place = useBench((state) => state.place);
  const list = useRef<HTMLDivElement>(null);
  const keepFocus = useRef(false);

  useEffect(() => {
    if (keepFocus.current) list.current?.querySelector<HTMLElement>(`#place-${place}`)?.focus();
    keepFocus.current = false;
  }, [place]);

  const onKeyDown = (event: KeyboardEvent): void => {
    const last = places.length - 1;
    const now = places.indexOf(place);
    const next = { ArrowRight: now === last ? 0 : now + 1, ArrowLeft: now === 0 ? last : now - 1, Home: 0, End: last }[
      event.key
    ];
    const chosen = next === undefined ? undefined : places[next];
    if (chosen === undefined) return;
    event.preventDefault();
    keepFocus.current = true;
    bench.store.setState({ place: chosen });
  };

  return (
    <div ref={list} className="places" role="tablist" aria-label="The work, in its order" onKeyDown={onKeyDown}>
      {places.map((one) => (
        <button
          key={one}
          id={`place-${one}`}
          type="button"
          role="tab"
          aria-selected={one === place}
          aria-controls="place-panel"
          tabIndex={one === place ? 0 : -1}
          onClick={() => bench.store.setState({ place: one })}
        >
          {placeTitles[one].title}
        </button>
      ))}
    </div>
  );
};

/** The steel rule along the table's front edge: above it the fold, below it the five places of the work. */
export const Rule = (): ReactElement => (
  <nav className="rule" aria-label="Fold and places">
    <Fold />
    <Places />
  </nav>
);
