import { type ReactElement, useState } from 'react';
import { useBench } from './bench.ts';
import { type Drawer, DrawerKeys } from './drawer-keys.tsx';
import { useLaying } from './laying/laying-store.ts';
import {
  EdgeTag,
  Hands,
  NetSheet,
  OffcutSheet,
  PlacePanel,
  PlanSheet,
  ProjectMenu,
  RoofCards,
  SetOutSheet,
  Slips,
} from './lazy-parts.tsx';
import { Rule } from './rule.tsx';
import { StageArea } from './stage-area.tsx';
import type { Place } from './state/bench-store.ts';
import { getAt } from './state/file-path.ts';
import { TopBar } from './top-bar.tsx';

/** The offcut that is drawn, index of its stock; null where none is, or it is none any more. */
const useDrawnOffcut = (): number | null => {
  const offcut = useLaying((state) => state.offcut);
  const isOffcut = useBench(({ file }) => offcut !== null && getAt(file, ['stock', offcut, 'outline']) !== undefined);
  return isOffcut ? offcut : null;
};

/** The bench: one table, the project's roofs at its left, the parameters at its right, the steel rule along its front. */
export const App = (): ReactElement => {
  const place = useBench((state) => state.place);
  const paperView = useBench((state) => state.paperView);
  const bodyView = useBench((state) => state.bodyView);
  const roofView = useBench((state) => state.roofView);
  const offcut = useDrawnOffcut();
  const [drawer, setDrawer] = useState<Drawer>(null);
  const sheets: Readonly<Record<Place, ReactElement | null>> = {
    body: bodyView === 'plan' ? <PlanSheet /> : null,
    roof: roofView === 'plan' ? <PlanSheet /> : null,
    paper:
      paperView === 'net' ? (
        <NetSheet />
      ) : paperView === 'sheets' && offcut !== null ? (
        <OffcutSheet index={offcut} />
      ) : null,
    'set-out': <SetOutSheet />,
    build: null,
  };
  const sheet = sheets[place];

  return (
    <div className="bench">
      <TopBar />
      <main className="table">
        <h1 className="unseen">Spirewright</h1>
        <StageArea isCovered={sheet !== null} />
        <div className="over-table">
          <Slips isOverSheet={sheet !== null || place === 'paper'} />
          {sheet}
          <EdgeTag />
        </div>
        <RoofCards isShut={drawer !== 'roofs'} />
        <DrawerKeys open={drawer} onOpen={setDrawer} />
        <PlacePanel isShut={drawer !== 'panel'} />
      </main>
      <Rule />
      <div id="project-menu" className="menu" popover="auto">
        <ProjectMenu />
      </div>
      <Hands />
    </div>
  );
};
