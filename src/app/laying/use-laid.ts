import { useDeferredValue, useMemo } from 'react';
import { piecesToLay } from '../../core/lay-project.ts';
import type { LaidSheet, PieceToLay } from '../../core/layout/layout.ts';
import type { Production } from '../../core/pipeline.ts';
import type { Project } from '../../core/project/project.ts';
import { isReadAhead, useProduction } from '../bench.ts';
import { type Loose, useLaying } from './laying-store.ts';
import { addSheet, isSamePiece, type Laid, movePiece, spotOf } from './lying.ts';

const pieceLists = new WeakMap<Production['roofs'], Pick<LaidNow, 'pieces'> & { readonly stock: Project['stock'] }>();

/** Every piece of every copy; the same list for the same roofs and papers, however they are laid. */
export const piecesOf = ({ project, roofs }: Pick<Production, 'project' | 'roofs'>): readonly PieceToLay[] => {
  const known = pieceLists.get(roofs);
  if (known?.stock === project.stock) return known.pieces;
  const pieces = piecesToLay(project, roofs);
  pieceLists.set(roofs, { stock: project.stock, pieces });
  return pieces;
};

/** The sheets with the loose pieces where they are held; sheets are begun where one is held on a new one. */
export const withLoose = (production: Production, loose: readonly Loose[]): Laid =>
  loose.reduce<Laid>((sheets, { key, spot }) => {
    const paper = production.project.stock[spot.stock];
    const piece = piecesOf(production).find((one) => isSamePiece(one, key));
    if (paper === undefined || piece === undefined) return sheets;
    const isThere = sheets.some(({ stock, index }) => stock === spot.stock && index === spot.index);
    const ready = isThere ? sheets : addSheet(sheets, spot.stock, paper);
    return movePiece(ready, piece, spot, spotOf(sheets, key)?.locked ?? false);
  }, production.sheets);

export interface LaidNow {
  readonly production: Production;
  readonly pieces: readonly PieceToLay[];
  readonly sheets: readonly LaidSheet[];
  readonly loose: readonly Loose[];
}

/** What lies on the sheets this moment, pieces under a hand included. */
export const useLaid = (): LaidNow | null => {
  const production = useProduction();
  const held = useLaying((state) => state.loose);
  const moving = useLaying((state) => state.moving);
  const from = useLaying((state) => state.from);
  return useMemo(() => {
    if (production === null) return null;
    const isHeld = moving !== null && from === production.sheets;
    const [sheets, loose] = isHeld ? [moving, held] : [production.sheets, []];
    return { production, pieces: piecesOf(production), sheets, loose };
  }, [production, held, moving, from]);
};

/**
 * The same, but where only a better layout was found, or one that was found is written down, it comes when the page has time: what
 * is drawn of it is drawn bit by bit, and a hand or a key is answered in between.
 */
export const useCalmLaid = (): LaidNow | null => {
  const now = useLaid();
  const later = useDeferredValue(now);
  if (now === null || later === null) return now;
  const isFound = now.production.project === later.production.project || isReadAhead(now.production);
  return isFound && now.loose.length === 0 && later.loose.length === 0 ? later : now;
};
