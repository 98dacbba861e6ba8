import { at, boxOf } from '../geometry/polygon.ts';
import { sub2 } from '../geometry/vector.ts';
import type { Solid } from '../solid/solid.ts';
import type { PlacedHem } from './hem.ts';
import type { GlueLine, NetPoint, Piece, Ruling } from './net.ts';
import { type Beyond, traceOutline } from './outline.ts';
import type { PlacedFlap } from './place-flaps.ts';
import { edgePoints, glueLinesOn } from './seam-sides.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';

export interface PieceName {
  readonly id: string;
  readonly title: string;
}

export function pieceNames(solid: Solid, pieces: readonly Unfolded[]): readonly PieceName[] {
  return pieces.map(({ panels }) => {
    const faces = panels.map((panel) => solid.faces[panel.face] as Solid['faces'][number]);
    const [first, second] = faces;
    if (!first) throw new Error('a piece without panels');
    if (!second) return { id: first.id, title: first.title };
    if (panels.length === solid.faces.length) return { id: 'net', title: 'Whole roof' };
    return {
      id: `${first.id}-net`,
      title:
        faces.length === 2
          ? `${first.title} and ${second.title.toLowerCase()}`
          : `${first.title} (${faces.length} panels)`,
    };
  });
}

/** What finishing a piece asks for beside its bare panels. */
interface Finishing {
  readonly flaps: readonly PlacedFlap[];
  readonly hems: readonly PlacedHem[];
  readonly abutments: ReadonlyMap<number, readonly number[]>;
  readonly name: PieceName;
}

/** A piece with its outline, moved to its corner. */
export function finishPiece(
  flatSolid: FlatSolid,
  { panels: loose, folds: looseFolds }: Unfolded,
  { flaps, hems, abutments, name }: Finishing,
): Piece {
  const { solid, edgesOf } = flatSolid;
  const flapAt = loose.map(() => new Map<number, PlacedFlap>());
  for (const placed of flaps) flapAt[placed.flap.panel]?.set(placed.position, placed);
  const hemAt = loose.map(() => new Map<number, PlacedHem>());
  for (const placed of hems) hemAt[placed.hem.panel]?.set(placed.position, placed);
  const foldAt = new Map(looseFolds.map((fold) => [fold.edge, fold]));
  const beyond = (panel: number, index: number): Beyond => {
    const edge = edgesOf[loose[panel]?.face ?? -1]?.[index] ?? -1;
    const flap = flapAt[panel]?.get(index);
    if (flap) return { flap };
    const hem = hemAt[panel]?.get(index);
    if (hem) return { flap: { flap: hem.hem, edges: hem.edges } };
    const fold = foldAt.get(edge);
    if (fold?.panels[0] !== panel) return {};
    const child = fold.panels[1];
    return { child: { panel: child, edge: (edgesOf[loose[child]?.face ?? -1] ?? []).indexOf(fold.edge) } };
  };
  const outline = traceOutline(loose, beyond);
  const box = boxOf(outline);
  const shift = (p: NetPoint): NetPoint => sub2(p, [box.minX, box.minY]);
  const shiftPair = ([p, q]: readonly [NetPoint, NetPoint]): [NetPoint, NetPoint] => [shift(p), shift(q)];
  const panels = loose.map(({ face, polygon }) => ({ face, polygon: polygon.map(shift) }));
  return {
    ...name,
    outline: outline.map(shift),
    panels,
    flaps: flaps.map(({ flap }) => ({ ...flap, polygon: flap.polygon.map(shift) })),
    hems: hems.map(({ hem }) => ({ ...hem, polygon: hem.polygon.map(shift) })),
    folds: looseFolds.map((fold) => ({ ...fold, ends: shiftPair(fold.ends) })),
    glueLines: panels.flatMap((laid, panel) =>
      (abutments.get(laid.face) ?? []).flatMap((edge) =>
        glueLinesOn(solid, edgePoints(solid, edge), laid).map((ends): GlueLine => ({ edge, panel, ends })),
      ),
    ),
    rulings: panels.flatMap(({ face, polygon }, panel) =>
      rulingsToShow(solid.faces[face] as Solid['faces'][number]).map(
        ([high, low]): Ruling => ({ panel, ends: [at(polygon, high), at(polygon, low)] }),
      ),
    ),
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
  };
}

/** So many rulings of a smooth panel are shown. */
const SHOWN_RULINGS = 6;

const rulingsToShow = ({ roll }: Solid['faces'][number]): readonly (readonly [number, number])[] => {
  const inner = roll?.rulings.slice(1, -1) ?? [];
  const step = Math.max(1, Math.round(inner.length / SHOWN_RULINGS));
  return inner.filter((_, i) => i % step === Math.floor(step / 2));
};
