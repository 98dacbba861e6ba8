import type { Solid } from '../solid/solid.ts';
import type { BuiltNet, NetOptions } from './build-net.ts';
import type { Net, Piece } from './net.ts';
import { fitsOn, type SheetRoom } from './plan-cuts.ts';
import { flapDepth } from './seam-flap.ts';
import { overSheet } from './seam-issues.ts';

/** How far a flap or a hem on a face along an edge is reckoned to reach, mm. */
export type ReachAt = (edge: number, face: number) => number;

/**
 * The net of fewest pieces that fit the sheets with their flaps. Where the pieces of a net that fit bare are too large with flaps
 * it is searched for again: first with room for every flap there may be on either side of an edge, which is more than is ever
 * needed, since a seam has one flap and many are cut back; then with room for the flaps that came of it, as long as that gives
 * fewer pieces. Issues: pieces larger than any sheet.
 */
export function fewestOn(
  sheets: readonly SheetRoom[],
  solid: Solid,
  { flaps, hem = 0 }: Pick<NetOptions, 'flaps' | 'hem'>,
  bare: BuiltNet,
  build: (reachAt: ReachAt) => BuiltNet,
): BuiltNet {
  const over = ({ net }: BuiltNet): Piece[] => net.pieces.filter(({ width, height }) => !fitsOn(sheets, width, height));
  const countOf = ({ net }: BuiltNet): number => net.pieces.filter(({ strip }) => !strip).length;
  if (over(bare).length === 0) return bare;
  const anyFlap: ReachAt = (edge) => (solid.edges[edge]?.faces.length === 2 ? flaps.width : hem);
  let best = bare;
  const isBettered = (reachAt: ReachAt): boolean => {
    const built = build(reachAt);
    const [now, before] = [over(built).length, over(best).length];
    const isBetter = now < before || (now === 0 && before === 0 && countOf(built) < countOf(best));
    if (isBetter) best = built;
    return isBetter;
  };
  isBettered(anyFlap);
  // No net has fewer pieces than one without flaps.
  const mayBeFewer = (): boolean => over(best).length > 0 || countOf(best) > countOf(bare);
  if (mayBeFewer()) isBettered(flapsOf(bare.net, anyFlap));
  while (mayBeFewer() && isBettered(flapsOf(best.net, anyFlap)));
  return { net: best.net, issues: [...best.issues, ...over(best).map((piece) => overSheet(solid, piece))] };
}

/** The flaps and hems of a net as they are; along its folds any that there may be. */
function flapsOf({ pieces }: Net, anyFlap: ReachAt): ReachAt {
  const depths = new Map<string, number>();
  for (const { flaps, hems, panels, strip } of pieces)
    for (const part of strip ? [] : [...flaps, ...hems])
      depths.set(`${part.edge} ${panels[part.panel]?.face}`, flapDepth(part));
  const folded = new Set(pieces.flatMap(({ folds }) => folds.map(({ edge }) => edge)));
  return (edge, face) => (folded.has(edge) ? anyFlap(edge, face) : (depths.get(`${edge} ${face}`) ?? 0));
}
