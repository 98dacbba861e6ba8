import type { Vec2 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import type { Edge } from '../solid/solid.ts';
import type { FlapBeginnings } from './flap-beginnings.ts';
import { type FlapBed, flapBed, type PlacedFlap, placeFlaps } from './place-flaps.ts';
import type { SeamFlap } from './seam-flap.ts';
import { matchHalves, type StripHalves } from './strip.ts';
import { type TakenRing, trimFlaps } from './trim-flaps.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';

/** What is tried at a seam: a flap on a face, a strip under both, or nothing. */
export type Attempt =
  | { readonly join: 'flap'; readonly from: number }
  | { readonly join: 'strip' }
  | { readonly join: 'tape' };

/** What comes of one choice. */
export interface Fitting {
  /** For each piece its flaps where they lie on it. */
  readonly placed: readonly (readonly PlacedFlap[])[];
  /** For each seam that is joined by a strip its halves. */
  readonly strips: ReadonlyMap<number, readonly [readonly Vec2[], readonly Vec2[]]>;
  /** Seams whose flap or strip found no room. */
  readonly failed: readonly number[];
}

export interface FlapFitter {
  /** Fits one choice after another: what has changed since the last one, by attempts that are others, is looked at again. */
  fit(attempts: ReadonlyMap<number, Attempt>): Fitting;
  /** For each seam its flaps as they were trimmed under their mates for the last choice. */
  trimmed(): ReadonlyMap<number, readonly SeamFlap[]>;
}

/** A seam with the face that is to carry its flap. */
type Wanted = readonly [seam: number, from: number];

/** What lies under a panel. */
interface UnderPanel {
  readonly wanted: readonly Wanted[];
  readonly flaps: readonly SeamFlap[];
}

/** A piece with its flaps laid flat. */
interface LaidPiece {
  readonly placed: readonly PlacedFlap[];
  /** Seams that it has a flap for. */
  readonly held: ReadonlySet<number>;
}

const areSame = (some: readonly Wanted[], others: readonly Wanted[]): boolean =>
  some.length === others.length && some.every(([seam, from], i) => seam === others[i]?.[0] && from === others[i]?.[1]);

export function flapFitter(
  flatSolid: FlatSolid,
  pieces: readonly Pick<Unfolded, 'panels'>[],
  seams: readonly number[],
  spec: FlapSpec,
  { taken, beginnings }: { readonly taken: readonly TakenRing[]; readonly beginnings: FlapBeginnings },
): FlapFitter {
  const { solid, boundsOf } = flatSolid;
  const facesOf = (seam: number): readonly [number, number] =>
    (solid.edges[seam] as Edge).faces as readonly [number, number];
  const seamsAt = new Map<number, number[]>();
  for (const seam of seams)
    for (const face of facesOf(seam)) if (!seamsAt.get(face)?.push(seam)) seamsAt.set(face, [seam]);
  const beds = pieces.map(({ panels }) => flapBed(panels));
  const pieceOf = new Map(pieces.flatMap(({ panels }, p) => panels.map(({ face }) => [face, p] as const)));
  let last: ReadonlyMap<number, Attempt> = new Map();
  const under = new Map<number, UnderPanel>();
  const carried = new Map<number, readonly SeamFlap[]>();
  const laid: (LaidPiece | undefined)[] = [];

  const wantedUnder = (panel: number): readonly Wanted[] =>
    (seamsAt.get(panel) ?? []).flatMap((seam): Wanted[] => {
      const attempt = last.get(seam);
      const [a, b] = facesOf(seam);
      const from = a === panel ? b : a;
      return attempt?.join === 'strip' || (attempt?.join === 'flap' && attempt.from === from) ? [[seam, from]] : [];
    });
  const flapsAt = (seam: number, to: number): readonly SeamFlap[] =>
    (under.get(to)?.flaps ?? []).filter((flap) => flap.seam === seam);
  /** The flaps that a face carries, in the order of its loop. */
  const carriedBy = (face: number): readonly SeamFlap[] => {
    const known = carried.get(face);
    if (known) return known;
    const found = (boundsOf[face] ?? []).flatMap((seam) => {
      const attempt = last.get(seam);
      if (attempt?.join !== 'flap' || attempt.from !== face) return [];
      const [a, b] = facesOf(seam);
      return flapsAt(seam, a === face ? b : a);
    });
    carried.set(face, found);
    return found;
  };
  const lay = (p: number): LaidPiece => {
    const placed = placeFlaps(flatSolid, pieces[p] as Unfolded, carriedBy, spec, { bed: beds[p] as FlapBed });
    return { placed, held: new Set(placed.map(({ flap }) => flap.edge)) };
  };

  return {
    fit: (attempts) => {
      const changed = [...attempts].flatMap(([seam, attempt]) => (last.get(seam) === attempt ? [] : [seam]));
      last = attempts;
      const stirred = new Set(changed.flatMap(facesOf));
      for (const panel of [...stirred]) {
        const wanted = wantedUnder(panel);
        const known = under.get(panel);
        if (known && areSame(known.wanted, wanted)) continue;
        const flaps = trimFlaps(flatSolid, wanted, spec, taken, beginnings);
        under.set(panel, { wanted, flaps });
        for (const { from } of [...(known?.flaps ?? []), ...flaps]) stirred.add(from);
      }
      for (const face of stirred) {
        carried.delete(face);
        const piece = pieceOf.get(face);
        if (piece !== undefined) laid[piece] = undefined;
      }
      const now = pieces.map((_, p) => (laid[p] ??= lay(p)));
      const strips = new Map<number, readonly [readonly Vec2[], readonly Vec2[]]>();
      const failed: number[] = [];
      for (const [seam, attempt] of attempts) {
        if (attempt.join === 'flap' && !now[pieceOf.get(attempt.from) ?? -1]?.held.has(seam)) failed.push(seam);
        if (attempt.join !== 'strip') continue;
        const halves = facesOf(seam).map((to) => flapsAt(seam, to)[0]) as unknown as StripHalves;
        const matched = matchHalves(halves, spec.least);
        if (matched) strips.set(seam, matched);
        else failed.push(seam);
      }
      return { placed: now.map(({ placed }) => placed), strips, failed };
    },
    trimmed: () => {
      const bySeam = new Map<number, SeamFlap[]>();
      for (const { flaps } of under.values())
        for (const flap of flaps) if (!bySeam.get(flap.seam)?.push(flap)) bySeam.set(flap.seam, [flap]);
      return bySeam;
    },
  };
}
