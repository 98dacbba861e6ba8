import { boxOf } from '../geometry/polygon.ts';
import type { Piece } from '../net/net.ts';
import type { Solid } from '../solid/solid.ts';
import type { Split } from './left-out.ts';

/** Every fold of a piece as a place to part it, with the boxes of both parts as they lie. */
export function splitsAt({ folds, panels, flaps, hems }: Piece, { edges }: Solid): readonly Split[] {
  return folds.flatMap((fold, f): readonly Split[] => {
    const side = joinedTo(
      fold.panels[0],
      folds.filter((_, i) => i !== f).map((one) => one.panels),
    );
    // Round a ring of folds a cut along one of them parts nothing.
    if (side.has(fold.panels[1])) return [];
    const part = (isIn: (panel: number) => boolean): readonly [number, number] => {
      const points = [
        ...panels.flatMap(({ polygon }, p) => (isIn(p) ? polygon : [])),
        ...[...flaps, ...hems].flatMap(({ panel, polygon }) => (isIn(panel) ? polygon : [])),
      ];
      const { minX, minY, maxX, maxY } = boxOf(points);
      return [maxX - minX, maxY - minY];
    };
    const parts = [part((p) => side.has(p)), part((p) => !side.has(p))];
    return [{ edge: edges[fold.edge]?.id ?? '', parts }];
  });
}

/** The panels that hang together with one by these folds. */
function joinedTo(first: number, folds: readonly (readonly [number, number])[]): ReadonlySet<number> {
  const found = new Set([first]);
  let isGrowing = true;
  while (isGrowing) {
    isGrowing = false;
    for (const [a, b] of folds) {
      if (found.has(a) === found.has(b)) continue;
      found.add(a).add(b);
      isGrowing = true;
    }
  }
  return found;
}
