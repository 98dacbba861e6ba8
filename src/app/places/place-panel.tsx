import type { ReactElement } from 'react';
import { useBench } from '../bench.ts';
import type { Place } from '../state/bench-store.ts';
import { BodyPlace } from './body-place.tsx';
import { BuildPlace } from './build-place.tsx';
import { PaperPlace } from './paper-place.tsx';
import { placeTitles } from './place-titles.ts';
import { RoofPlace } from './roof-place.tsx';
import { SetOutPlace } from './set-out-place.tsx';

const bodies: Readonly<Record<Place, () => ReactElement | null>> = {
  body: BodyPlace,
  roof: RoofPlace,
  paper: PaperPlace,
  'set-out': SetOutPlace,
  build: BuildPlace,
};

/** The paper at the right of the table: what can be set in the place where the maker is. */
export const PlacePanel = ({ isShut }: { readonly isShut: boolean }): ReactElement => {
  const place = useBench((state) => state.place);
  const Body = bodies[place];
  return (
    <section
      id="place-panel"
      role="tabpanel"
      aria-labelledby={`place-${place}`}
      className={`panel ${isShut ? 'is-shut' : ''}`}
    >
      <header className="panel-head">
        <h2>{placeTitles[place].title}</h2>
        <p>{placeTitles[place].about}</p>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling part has to be reached by keyboard. */}
      <section className="panel-body" tabIndex={0} aria-label={placeTitles[place].about}>
        <Body />
      </section>
    </section>
  );
};
