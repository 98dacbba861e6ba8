export type Loose = Record<string, unknown>;

/** A whole file in inches; a test changes one thing in it. */
export const gateFile = (changes: Loose = {}): Loose => ({
  format: 'spirewright-project',
  version: 1,
  title: 'Harbour gate',
  units: 'in',
  stock: [slate()],
  roofs: [gate()],
  ...changes,
});

export const slate = (changes: Loose = {}): Loose => ({
  id: 'slate',
  name: 'Slate print',
  width: '12in',
  height: '11 1/2in',
  count: 3,
  thickness: '0.25mm',
  direction: 'two-way',
  ...changes,
});

export const gate = (changes: Loose = {}): Loose => ({
  id: 'gate',
  title: 'Gate tower',
  copies: 2,
  kind: 'pyramid',
  shape: { width: '1 3/4in', depth: '1 5/8in', rise: '2 1/2in' },
  body: { width: '1 1/2in', depth: '1 3/8in', height: '4in' },
  layers: [cover()],
  ...changes,
});

export const cover = (changes: Loose = {}): Loose => ({
  as: 'cover',
  stock: 'slate',
  pieces: 'per-panel',
  flaps: { width: '3/16in', on: 'one-side' },
  ...changes,
});
