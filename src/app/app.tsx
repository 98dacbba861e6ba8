import { type ReactElement, useState } from 'react';
import { useBench } from './bench.ts';
import { type Drawer, DrawerKeys } from './drawer-keys.tsx';
import { DropTarget } from './drop-target.tsx';
import { NetSheet } from './places/net-sheet.tsx';
import { PlacePanel } from './places/place-panel.tsx';
import { SetOutSheet } from './places/set-out-sheet.tsx';
import { RoofCards } from './roof-cards.tsx';
import { Rule } from './rule.tsx';
import { Slips } from './slips.tsx';
import { StageArea } from './stage-area.tsx';
import { TopBar } from './top-bar.tsx';
import { useShortcuts } from './use-shortcuts.ts';

/** The bench: one table, the project's roofs at its left, the parameters at its right, the steel rule along its front. */
export const App = (): ReactElement => {
  const place = useBench((state) => state.place);
  const paperView = useBench((state) => state.paperView);
  const [drawer, setDrawer] = useState<Drawer>(null);
  useShortcuts();
  const sheet = place === 'paper' && paperView === 'net' ? <NetSheet /> : place === 'set-out' ? <SetOutSheet /> : null;

  return (
    <DropTarget>
      <div className="bench">
        <TopBar />
        <main className="table">
          <h1 className="unseen">Spirewright</h1>
          <StageArea isCovered={sheet !== null} />
          {sheet}
          <Slips />
          <RoofCards isShut={drawer !== 'roofs'} />
          <DrawerKeys open={drawer} onOpen={setDrawer} />
          <PlacePanel isShut={drawer !== 'panel'} />
        </main>
        <Rule />
      </div>
    </DropTarget>
  );
};
