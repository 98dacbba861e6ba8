import type { Place } from '../state/bench-store.ts';

/** What each place is called and what is done there. */
export const placeTitles: Readonly<
  Record<Place, { readonly title: string; readonly drawer: string; readonly about: string }>
> = {
  body: { title: 'Body', drawer: 'Body sizes', about: 'What the roof sits on, and how far it stands out.' },
  roof: { title: 'Roof', drawer: 'Roof sizes', about: 'How high and how steep.' },
  paper: { title: 'Paper', drawer: 'Paper and flaps', about: 'The paper you own and the flaps that join it.' },
  'set-out': { title: 'Set out', drawer: 'Ruler', about: 'Every measure on your own ruler.' },
  build: { title: 'Build', drawer: 'Print and save', about: 'Print, cut, score, fold, glue.' },
};
