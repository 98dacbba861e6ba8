import type { Solid } from '../solid/solid.ts';
import type { HandCuts } from './by-hand.ts';
import { type Carriers, chooseCarriers } from './choose-flaps.ts';

/**
 * Carriers with what is chosen by hand in their place: a flap on its panel, which then holds it for good; a flap on any panel
 * where none was to be; and seams without a flap. `asked`: what joins those.
 */
export function carriersByHand(
  solid: Solid,
  carriers: Carriers,
  { seams }: Pick<HandCuts, 'seams'>,
): { readonly carriers: Carriers; readonly asked: ReadonlyMap<number, 'strip' | 'tape'> } {
  if (seams.size === 0) return { carriers, asked: new Map() };
  const from = new Map(carriers.from);
  const mayTurn = new Map(carriers.mayTurn);
  const asked = new Map<number, 'strip' | 'tape'>();
  const usual = chooseCarriers(solid, [...seams.keys()], 'one-side');
  for (const [edge, { join, on }] of seams) {
    if (join !== 'flap') {
      from.delete(edge);
      mayTurn.delete(edge);
      asked.set(edge, join);
    } else if (on !== null) {
      from.set(edge, on);
      mayTurn.delete(edge);
    } else if (!from.has(edge)) {
      from.set(edge, usual.from.get(edge) as number);
      if (usual.mayTurn.has(edge)) mayTurn.set(edge, 'freely');
    }
  }
  return { carriers: { ...carriers, from, mayTurn }, asked };
}
