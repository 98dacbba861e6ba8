import { type ComponentType, type ReactElement, useSyncExternalStore } from 'react';
import { loadWorkshop } from './load-workshop.ts';

type Parts = typeof import('./places/parts.ts').parts;

/**
 * What is not needed before the table is laid: cards, slips, menu, the panels of the places, the sheets that cover the
 * table, and the workshop, without which none of them could change anything. Asked for when the page is first drawn,
 * after the stage, so that they are there by the time a hand reaches for them; then all of them at once, so that none
 * makes the table wait again.
 */
let parts: Parts | null = null;
let isAsked = false;
const waiting = new Set<() => void>();

const load = async (): Promise<void> => {
  const workshop = loadWorkshop();
  const loaded = await import('./places/parts.ts');
  await workshop;
  parts = loaded.parts;
  for (const tell of waiting) tell();
};

const listen = (tell: () => void): (() => void) => {
  waiting.add(tell);
  if (!isAsked) void load();
  isAsked = true;
  return () => waiting.delete(tell);
};

const useParts = (): Parts | null => useSyncExternalStore(listen, () => parts);

/** One of the parts; nothing until they are there. */
const part =
  <P extends object>(choose: (parts: Parts) => ComponentType<P>): ComponentType<P> =>
  (props: P): ReactElement | null => {
    const loaded = useParts();
    if (loaded === null) return null;
    const Part = choose(loaded);
    return <Part {...props} />;
  };

interface Drawer {
  readonly isShut: boolean;
}

export const RoofCards: ComponentType<Drawer> = part((all) => all.RoofCards);
export const PlacePanel: ComponentType<Drawer> = part((all) => all.PlacePanel);
export const Slips: ComponentType<{ readonly isOverSheet: boolean }> = part((all) => all.Slips);
export const EdgeTag: ComponentType = part((all) => all.EdgeTag);
export const NetSheet: ComponentType = part((all) => all.NetSheet);
export const OffcutSheet: ComponentType<{ readonly index: number }> = part((all) => all.OffcutSheet);
export const PlanSheet: ComponentType = part((all) => all.PlanSheet);
export const SetOutSheet: ComponentType = part((all) => all.SetOutSheet);
export const FlatInstead: ComponentType = part((all) => all.FlatInstead);
export const LayingTable: ComponentType = part((all) => all.LayingTable);
export const Hands: ComponentType = part((all) => all.Hands);
export const ProjectMenu: ComponentType = part((all) => all.ProjectMenu);
