import type { Vec2 } from '../geometry/vector.ts';

/** A micrometre: outlines that differ by less are the same piece. */
const STEP_MM = 1e-3;

/**
 * A short text that is the same for the same outline and all but surely another one for any other: the FNV-1a hash
 * (G. Fowler, L. C. Noll, P. Vo, 1991) of its corners in whole micrometres, counted from the first.
 */
export function fingerprint(outline: readonly Vec2[]): string {
  let hash = 0x811c9dc5;
  const add = (byte: number): void => {
    hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  };
  for (const value of outline.flat()) {
    const whole = Math.round(value / STEP_MM);
    for (let shift = 0; shift < 32; shift += 8) add((whole >>> shift) & 0xff);
  }
  return hash.toString(16).padStart(8, '0');
}
