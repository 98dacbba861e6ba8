import type { ReactElement, ReactNode } from 'react';
import type { Place } from '../core/issue.ts';
import { bench, useBench } from './bench.ts';

interface LitLineProps {
  /** Names the line among all that can light something. */
  readonly by: string;
  readonly roof: number;
  readonly place: Place | null;
  readonly children: ReactNode;
}

/** Words about a part of the roof; pressed, that part lights up on the net and on the roof, pressed again it goes out. */
export const LitLine = ({ by, roof, place, children }: LitLineProps): ReactElement => {
  const isLit = useBench((state) => state.lit?.by === by);
  if (place === null) return <span className="lit-line-words">{children}</span>;
  return (
    <button type="button" className="lit-line-key" aria-pressed={isLit} onClick={() => light(isLit, by, roof, place)}>
      <Lamp />
      <span>{children}</span>
    </button>
  );
};

const light = (isLit: boolean, by: string, roof: number, place: Place): void => {
  if (bench.store.getState().selected !== roof) bench.select(roof);
  bench.store.setState({ lit: isLit ? null : { by, roof, place } });
};

interface ShowPlaceProps {
  readonly by: string;
  readonly path: string;
  readonly place: Place | undefined;
}

/** Beside an issue: lights the part of the roof that it speaks of. */
export const ShowPlace = ({ by, path, place }: ShowPlaceProps): ReactElement | null => {
  const isLit = useBench((state) => state.lit?.by === by);
  const roof = /^roofs\[(\d+)\]/.exec(path)?.[1];
  if (place === undefined || roof === undefined) return null;
  return (
    <button
      type="button"
      className="lit-line-key is-short"
      aria-pressed={isLit}
      onClick={() => light(isLit, by, Number(roof), place)}
    >
      <Lamp />
      <span>{isLit ? 'Put out' : 'Show where'}</span>
    </button>
  );
};

const Lamp = (): ReactElement => (
  <svg className="lamp" viewBox="0 0 14 14" aria-hidden="true">
    <circle cx="7" cy="7" r="4.500" />
  </svg>
);
