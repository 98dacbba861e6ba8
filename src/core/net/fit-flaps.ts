import type { Vec2 } from '../geometry/vector.ts';
import type { FlapSpec } from '../project/project.ts';
import type { Edge } from '../solid/solid.ts';
import type { Carriers } from './choose-flaps.ts';
import { type FlapBeginnings, flapBeginnings } from './flap-beginnings.ts';
import type { SeamJoin } from './net.ts';
import { type FlapBed, flapBed, type PlacedFlap, placeFlaps } from './place-flaps.ts';
import type { SeamFlap } from './seam-flap.ts';
import { matchHalves, type StripHalves, takesStrip } from './strip.ts';
import { type TakenRing, trimFlaps } from './trim-flaps.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';

/** How every seam is joined, and what joins it. */
export interface FittedFlaps {
  readonly joins: ReadonlyMap<number, SeamJoin>;
  /** For each piece its flaps where they lie on it. */
  readonly placed: readonly (readonly PlacedFlap[])[];
  /** As they were trimmed under their mates. */
  readonly trimmed: ReadonlyMap<number, readonly SeamFlap[]>;
  /** For each seam that is joined by a strip its halves. */
  readonly strips: ReadonlyMap<number, readonly [readonly Vec2[], readonly Vec2[]]>;
}

export interface FitOptions {
  /** Seams for which a strip or tape is asked by hand. */
  readonly asked?: ReadonlyMap<number, 'strip' | 'tape'>;
  /** What lies under panels already. */
  readonly taken?: readonly TakenRing[];
}

/** What is tried at a seam: a flap on a face, a strip under both, or nothing. */
type Attempt =
  | { readonly join: 'flap'; readonly from: number }
  | { readonly join: 'strip' }
  | { readonly join: 'tape' };

/**
 * Gives every seam its flap. Where one finds too little room, under its mate or beside its own panel, the other side carries it
 * if it may and if that leaves fewer seams without, though a plain piece is spoiled by it; else the seam is joined by a strip, if strips are wanted and one fits, or
 * by tape. What was tried in vain makes room for its neighbours.
 */
export function fitFlaps(
  flatSolid: FlatSolid,
  pieces: readonly Pick<Unfolded, 'panels'>[],
  seams: readonly number[],
  carriers: Carriers,
  spec: FlapSpec,
  { asked = new Map(), taken = [] }: FitOptions = {},
): FittedFlaps {
  const { solid } = flatSolid;
  const edgeOf = (seam: number): Edge => solid.edges[seam] as Edge;
  const otherFace = (seam: number, face: number): number => edgeOf(seam).faces.find((f) => f !== face) as number;
  const withoutFlap = (seam: number): Attempt =>
    (asked.get(seam) ?? spec.instead) === 'strip' && takesStrip(edgeOf(seam)) ? { join: 'strip' } : { join: 'tape' };
  let attempts = new Map<number, Attempt>(
    seams.map((seam) => {
      const from = asked.has(seam) ? undefined : carriers.from.get(seam);
      return [seam, from === undefined ? withoutFlap(seam) : { join: 'flap', from }];
    }),
  );
  const beginnings = flapBeginnings(flatSolid, spec);
  const tryOut = fitter(flatSolid, pieces, spec, { taken, beginnings });
  const turned = new Set<number>();
  const alone = new Map<string, boolean>();
  /** Whether a flap finds room where nothing else is glued under its mate: else it need not be tried with others. */
  const fitsAlone = (seam: number, from: number): boolean => {
    const key = `${seam} ${from}`;
    let fits = alone.get(key);
    if (fits === undefined) {
      fits = trimFlaps(flatSolid, [[seam, from]], spec, taken, beginnings).some(({ polygon }) => polygon.length > 0);
      alone.set(key, fits);
    }
    return fits;
  };
  let found = tryOut(attempts);
  while (found.failed.length > 0) {
    const canTurn = (seam: number, way: 'freely' | 'spoiling'): boolean => {
      const attempt = attempts.get(seam);
      return (
        carriers.mayTurn.get(seam) === way &&
        !turned.has(seam) &&
        attempt?.join === 'flap' &&
        fitsAlone(seam, otherFace(seam, attempt.from))
      );
    };
    const freely = found.failed.filter((seam) => canTurn(seam, 'freely'));
    // Plain pieces stay plain where they can. Else of two flaps under one panel that is turned which comes first going round, so
    // that on a ring every panel carries one.
    const spoiling = found.failed.filter((seam) => canTurn(seam, 'spoiling'));
    const inTurn = spoiling.filter((seam) => carriers.around.get(seam) !== carriers.from.get(seam));
    const turning = [freely, inTurn].find((some) => some.length > 0) ?? onePerPanel(spoiling, attempts, otherFace);
    const next = new Map(attempts);
    for (const seam of turning) {
      turned.add(seam);
      next.set(seam, { join: 'flap', from: otherFace(seam, (attempts.get(seam) as { from: number }).from) });
    }
    const turnedOver = turning.length > 0 ? tryOut(next) : null;
    if (turnedOver && turnedOver.failed.length < found.failed.length) {
      attempts = next;
      found = turnedOver;
      continue;
    }
    const without = new Map(attempts);
    const isHopeless = (seam: number): boolean => {
      const attempt = attempts.get(seam);
      return attempt?.join === 'flap' && !fitsAlone(seam, attempt.from);
    };
    // One under each panel at a time: without it the others may have room.
    const hopeless = found.failed.filter(isHopeless);
    const given = hopeless.length > 0 ? hopeless : onePerPanel(found.failed, attempts, otherFace);
    for (const seam of given) {
      without.set(seam, attempts.get(seam)?.join === 'strip' ? { join: 'tape' } : withoutFlap(seam));
    }
    attempts = without;
    found = tryOut(attempts);
  }
  return {
    joins: new Map([...attempts].map(([seam, { join }]) => [seam, join])),
    placed: found.placed,
    trimmed: found.trimmed,
    strips: found.strips,
  };
}

function onePerPanel(
  failed: readonly number[],
  attempts: ReadonlyMap<number, Attempt>,
  otherFace: (seam: number, face: number) => number,
): readonly number[] {
  const byPanel = new Map<number, number>();
  for (const seam of failed) {
    const attempt = attempts.get(seam) as Attempt;
    // A strip that fails lies under two panels; by itself it is a group of its own.
    byPanel.set(attempt.join === 'flap' ? otherFace(seam, attempt.from) : -1 - seam, seam);
  }
  return [...byPanel.values()];
}

interface Fitting extends Pick<FittedFlaps, 'placed' | 'trimmed' | 'strips'> {
  readonly failed: readonly number[];
}

/** A seam with the face that is to carry its flap. */
type Wanted = readonly [seam: number, from: number];

const areSame = (some: readonly Wanted[], others: readonly Wanted[]): boolean =>
  some.length === others.length && some.every(([seam, from], i) => seam === others[i]?.[0] && from === others[i]?.[1]);

/** Fits one choice after another; panels under which nothing has changed, and pieces, are not looked at again. */
function fitter(
  flatSolid: FlatSolid,
  pieces: readonly Pick<Unfolded, 'panels'>[],
  spec: FlapSpec,
  { taken, beginnings }: { readonly taken: readonly TakenRing[]; readonly beginnings: FlapBeginnings },
): (attempts: ReadonlyMap<number, Attempt>) => Fitting {
  const { solid, boundsOf } = flatSolid;
  const beds = pieces.map(({ panels }) => flapBed(panels));
  const underPanel = new Map<number, { readonly wanted: readonly Wanted[]; readonly flaps: readonly SeamFlap[] }>();
  const onPiece = new Map<number, { readonly flaps: readonly SeamFlap[]; readonly placed: readonly PlacedFlap[] }>();
  return (attempts) => {
    const wanted = new Map<number, Wanted[]>();
    for (const [seam, attempt] of attempts) {
      const [a, b] = (solid.edges[seam] as Edge).faces as readonly [number, number];
      const froms = attempt.join === 'flap' ? [attempt.from] : attempt.join === 'strip' ? [b, a] : [];
      for (const from of froms) {
        const to = from === a ? b : a;
        const known = wanted.get(to);
        if (known) known.push([seam, from]);
        else wanted.set(to, [[seam, from]]);
      }
    }
    const trimmed = new Map<number, SeamFlap[]>();
    for (const [to, flaps] of wanted) {
      let known = underPanel.get(to);
      if (!known || !areSame(known.wanted, flaps)) {
        known = { wanted: flaps, flaps: trimFlaps(flatSolid, flaps, spec, taken, beginnings) };
        underPanel.set(to, known);
      }
      for (const flap of known.flaps) {
        const others = trimmed.get(flap.seam);
        if (others) others.push(flap);
        else trimmed.set(flap.seam, [flap]);
      }
    }

    /** The flaps that a face carries, in the order of its loop. */
    const flapsOf = (face: number): readonly SeamFlap[] => {
      const known = carriedBy.get(face);
      if (known) return known;
      const carried: SeamFlap[] = [];
      for (const seam of boundsOf[face] ?? []) {
        if (attempts.get(seam)?.join !== 'flap') continue;
        for (const flap of trimmed.get(seam) ?? []) if (flap.from === face) carried.push(flap);
      }
      carriedBy.set(face, carried);
      return carried;
    };
    const carriedBy = new Map<number, readonly SeamFlap[]>();
    const placed = pieces.map((piece, p) => {
      const carried: SeamFlap[] = [];
      for (const { face } of piece.panels) for (const flap of flapsOf(face)) carried.push(flap);
      const known = onPiece.get(p);
      if (known && known.flaps.length === carried.length && known.flaps.every((flap, i) => flap === carried[i])) {
        return known.placed;
      }
      const now = placeFlaps(flatSolid, piece, flapsOf, spec, { bed: beds[p] as FlapBed });
      onPiece.set(p, { flaps: carried, placed: now });
      return now;
    });

    const held = new Set(placed.flatMap((flaps) => flaps.map(({ flap }) => flap.edge)));
    const strips = new Map<number, readonly [readonly Vec2[], readonly Vec2[]]>();
    const failed: number[] = [];
    for (const [seam, { join }] of attempts) {
      if (join === 'flap' && !held.has(seam)) failed.push(seam);
      if (join !== 'strip') continue;
      const [first] = (solid.edges[seam] as Edge).faces as readonly [number, number];
      const own = trimmed.get(seam) ?? [];
      const halves = [own.find(({ to }) => to === first), own.find(({ to }) => to !== first)] as unknown as StripHalves;
      const matched = matchHalves(halves, spec.least);
      if (matched) strips.set(seam, matched);
      else failed.push(seam);
    }
    return { placed, trimmed, strips, failed };
  };
}
