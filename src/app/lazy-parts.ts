import { type ComponentType, lazy } from 'react';

/**
 * What is not needed for the first paint: cards, slips, the panels of the places, the sheets that cover the table.
 * Asked for at once, so that they are there by the time a hand reaches for them.
 */
const parts = import('./places/parts.ts');

interface Drawer {
  readonly isShut: boolean;
}

export const RoofCards: ComponentType<Drawer> = lazy(async () => ({ default: (await parts).RoofCards }));
export const PlacePanel: ComponentType<Drawer> = lazy(async () => ({ default: (await parts).PlacePanel }));
export const Slips: ComponentType = lazy(async () => ({ default: (await parts).Slips }));
export const NetSheet: ComponentType = lazy(async () => ({ default: (await parts).NetSheet }));
export const SetOutSheet: ComponentType = lazy(async () => ({ default: (await parts).SetOutSheet }));
export const FlatInstead: ComponentType = lazy(async () => ({ default: (await parts).FlatInstead }));
