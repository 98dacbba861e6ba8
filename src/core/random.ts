/** Numbers from 0 up to 1, the next one at each call. */
export type Random = () => number;

/**
 * A row of numbers that look drawn by chance and are the same for the same seed (0 to 2^32 - 1) on every machine: a Weyl
 * sequence through the finalizer of MurmurHash3 (A. Appleby, 2011, public domain).
 */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}
