import '../styles/lying.css';
import '../styles/cards.css';
import '../styles/kinds.css';
import '../styles/laying.css';
import '../styles/menu.css';
import '../styles/panel.css';
import '../styles/plan.css';
import '../styles/set-out.css';
import '../styles/sheet.css';
import { EdgeTag } from '../edge-tag.tsx';
import { Hands } from '../hands.tsx';
import { LayingTable } from '../laying/laying-table.tsx';
import { OffcutSheet } from '../laying/offcut-sheet.tsx';
import { PlanSheet } from '../plan/plan-sheet.tsx';
import { ProjectMenu } from '../project-menu.tsx';
import { RoofCards } from '../roof-cards.tsx';
import { Slips } from '../slips.tsx';
import { FlatInstead } from './flat-instead.tsx';
import { NetSheet } from './net-sheet.tsx';
import { PlacePanel } from './place-panel.tsx';
import { SetOutSheet } from './set-out-sheet.tsx';

/** Everything that lies on the table, in one chunk with its styles. */
export const parts = {
  EdgeTag,
  Hands,
  LayingTable,
  PlanSheet,
  ProjectMenu,
  RoofCards,
  Slips,
  FlatInstead,
  NetSheet,
  OffcutSheet,
  PlacePanel,
  SetOutSheet,
} as const;
