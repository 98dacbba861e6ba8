import { standOut } from '../../footprint/offset.ts';
import { sideNames } from '../../footprint/sides.ts';
import { at } from '../../geometry/polygon.ts';
import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import { fail, type Issue, type Result, succeed } from '../../issue.ts';
import { buildSolid, type FaceDraft } from '../../solid/build-solid.ts';
import type { Solid } from '../../solid/solid.ts';
import type { Band } from './raise-roof.ts';

export interface PeakRoof {
  /** Eave outline counter-clockwise, mm. Every side has to see the peak. */
  readonly corners: readonly Vec2[];
  readonly peak: Vec3;
  /** Lower bands of each side, all at the same levels; the last of each is taken up to the peak. None: one panel a side. */
  readonly bands?: readonly (readonly Band[])[];
}

/** A panel from every side of an outline to one peak, each of its own pitch, over bands all round where there are some. */
export function raisePeak({ corners, peak, bands = corners.map(() => []) }: PeakRoof): Result<Solid> {
  const levels = (bands[0] ?? []).map(({ level }) => level);
  const rings: (readonly Vec2[])[] = [corners];
  const runs = corners.map(() => 0);
  for (const [k, level] of levels.slice(1).entries()) {
    runs.forEach((run, i) => {
      runs[i] = run + (level - (levels[k] as number)) / Math.tan(bands[i]?.[k]?.pitch ?? 0);
    });
    const ring = standOut(
      { corners },
      runs.map((run) => -run),
    );
    if (!ring.ok) return fail(sideRunsOut);
    rings.push(ring.value.corners);
  }
  const drafts = sideNames([corners]).flatMap(({ id, title }, i): FaceDraft[] =>
    rings.map((ring, k) => {
      const lift = ([x, y]: Vec2, level: number): Vec3 => [x, y, level];
      const [low, high] = [levels[k] ?? 0, levels[k + 1] ?? 0];
      const [a, b] = [lift(at(ring, i), low), lift(at(ring, i + 1), low)];
      const above = rings[k + 1];
      return {
        id: k === 0 ? id : `${id}-band-${k + 1}`,
        title: k === 0 ? title : `${title}, band ${k + 1}`,
        part: 'slope',
        side: id,
        points: above ? [a, b, lift(at(above, i + 1), high), lift(at(above, i), high)] : [a, b, peak],
      };
    }),
  );
  return succeed(buildSolid(drafts));
}

const sideRunsOut: Issue = {
  level: 'error',
  code: 'side-runs-out',
  path: 'shape.flareRise',
  message: 'A side of this plan is so short that its flare runs out before the steep part begins.',
  remedy: 'Make the flare lower or steeper, or leave out the short side.',
};
