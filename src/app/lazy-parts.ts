import { type ComponentType, lazy } from 'react';
import { loadWorkshop } from './load-workshop.ts';

/**
 * What is not needed before the table is laid: cards, slips, menu, the panels of the places, the sheets that cover the
 * table, and the workshop, without which none of them could change anything. Asked for when the page is first drawn,
 * after the stage, so that they are there by the time a hand reaches for them.
 */
let asked: Promise<typeof import('./places/parts.ts')> | null = null;
const load = (): NonNullable<typeof asked> => {
  asked ??= Promise.all([import('./places/parts.ts'), loadWorkshop()]).then(([parts]) => parts);
  return asked;
};

interface Drawer {
  readonly isShut: boolean;
}

export const RoofCards: ComponentType<Drawer> = lazy(async () => ({ default: (await load()).RoofCards }));
export const PlacePanel: ComponentType<Drawer> = lazy(async () => ({ default: (await load()).PlacePanel }));
export const Slips: ComponentType = lazy(async () => ({ default: (await load()).Slips }));
export const NetSheet: ComponentType = lazy(async () => ({ default: (await load()).NetSheet }));
export const SetOutSheet: ComponentType = lazy(async () => ({ default: (await load()).SetOutSheet }));
export const FlatInstead: ComponentType = lazy(async () => ({ default: (await load()).FlatInstead }));
export const Hands: ComponentType = lazy(async () => ({ default: (await load()).Hands }));
export const ProjectMenu: ComponentType = lazy(async () => ({ default: (await load()).ProjectMenu }));
