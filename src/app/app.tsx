import { type ReactElement, Suspense, useState } from 'react';
import { useBench } from './bench.ts';
import { type Drawer, DrawerKeys } from './drawer-keys.tsx';
import { Hands, NetSheet, PlacePanel, ProjectMenu, RoofCards, SetOutSheet, Slips } from './lazy-parts.ts';
import { Rule } from './rule.tsx';
import { StageArea } from './stage-area.tsx';
import { TopBar } from './top-bar.tsx';

/** The bench: one table, the project's roofs at its left, the parameters at its right, the steel rule along its front. */
export const App = (): ReactElement => {
  const place = useBench((state) => state.place);
  const paperView = useBench((state) => state.paperView);
  const [drawer, setDrawer] = useState<Drawer>(null);
  const sheet = place === 'paper' && paperView === 'net' ? <NetSheet /> : place === 'set-out' ? <SetOutSheet /> : null;

  return (
    <div className="bench">
      <TopBar />
      <main className="table">
        <h1 className="unseen">Spirewright</h1>
        <StageArea isCovered={sheet !== null} />
        <Suspense fallback={null}>
          {sheet}
          <Slips />
          <RoofCards isShut={drawer !== 'roofs'} />
        </Suspense>
        <DrawerKeys open={drawer} onOpen={setDrawer} />
        <Suspense fallback={null}>
          <PlacePanel isShut={drawer !== 'panel'} />
        </Suspense>
      </main>
      <Rule />
      <div id="project-menu" className="menu" popover="auto">
        <Suspense fallback={null}>
          <ProjectMenu />
        </Suspense>
      </div>
      <Suspense fallback={null}>
        <Hands />
      </Suspense>
    </div>
  );
};
