import type { FlapSpec } from '../project/project.ts';
import type { Edge } from '../solid/solid.ts';
import type { Carriers } from './choose-flaps.ts';
import { flapBeginnings } from './flap-beginnings.ts';
import { type Attempt, type Fitting, flapFitter } from './flap-fitter.ts';
import type { SeamJoin } from './net.ts';
import type { SeamFlap } from './seam-flap.ts';
import { takesStrip } from './strip.ts';
import { type TakenRing, trimFlaps } from './trim-flaps.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';

/** How every seam is joined, and what joins it. */
export interface FittedFlaps extends Pick<Fitting, 'placed' | 'strips'> {
  readonly joins: ReadonlyMap<number, SeamJoin>;
  /** As they were trimmed under their mates. */
  readonly trimmed: ReadonlyMap<number, readonly SeamFlap[]>;
}

export interface FitOptions {
  /** Seams for which a strip or tape is asked by hand. */
  readonly asked?: ReadonlyMap<number, 'strip' | 'tape'>;
  /** What lies under panels already. */
  readonly taken?: readonly TakenRing[];
}

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
  const fitter = flapFitter(flatSolid, pieces, seams, spec, { taken, beginnings });
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
  let found = fitter.fit(attempts);
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
    const turnedOver = turning.length > 0 ? fitter.fit(next) : null;
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
    found = fitter.fit(attempts);
  }
  return {
    joins: new Map([...attempts].map(([seam, { join }]) => [seam, join])),
    placed: found.placed,
    trimmed: fitter.trimmed(),
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
