import type { ReactElement } from 'react';
import { useBench } from './bench.ts';
import { placeTitles } from './places/place-titles.ts';

export type Drawer = 'roofs' | 'panel' | null;

/** On a narrow screen: opens the drawer of the roofs or of the place's panel. Unseen on a wide one. */
export const DrawerKeys = ({
  open,
  onOpen,
}: {
  readonly open: Drawer;
  readonly onOpen: (drawer: Drawer) => void;
}): ReactElement => {
  const place = useBench((state) => state.place);
  const key = (drawer: 'roofs' | 'panel', title: string): ReactElement => (
    <button
      type="button"
      aria-expanded={open === drawer}
      aria-controls={drawer === 'roofs' ? 'roof-cards' : 'place-panel'}
      onClick={() => onOpen(open === drawer ? null : drawer)}
    >
      {title}
    </button>
  );
  return (
    <div className="drawer-keys">
      {key('roofs', 'Roofs')}
      {key('panel', placeTitles[place].drawer)}
    </div>
  );
};
