import '../styles/lying.css';
import '../styles/cards.css';
import '../styles/kinds.css';
import '../styles/laying.css';
import '../styles/menu.css';
import '../styles/panel.css';
import '../styles/plan.css';
import '../styles/set-out.css';
import '../styles/sheet.css';

/** Everything that lies on the table, in one chunk with its styles. */
export { EdgeTag } from '../edge-tag.tsx';
export { Hands } from '../hands.tsx';
export { LayingTable } from '../laying/laying-table.tsx';
export { PlanSheet } from '../plan/plan-sheet.tsx';
export { ProjectMenu } from '../project-menu.tsx';
export { RoofCards } from '../roof-cards.tsx';
export { Slips } from '../slips.tsx';
export { FlatInstead } from './flat-instead.tsx';
export { NetSheet } from './net-sheet.tsx';
export { PlacePanel } from './place-panel.tsx';
export { SetOutSheet } from './set-out-sheet.tsx';
