/** The stage's colours. One ink for every line on paper; chalk for what is written on the board. */
export const tones = {
  room: '#1c1613',
  board: '#2b2622',
  paper: '#f3e9d2',
  wrongSide: '#f8f3e7',
  card: '#e3d8bf',
  greyboard: '#a79c89',
  ink: '#231b16',
  chalk: '#eadfc6',
  terracotta: '#b5563a',
  verdigris: '#4f8a7b',
  slate: '#7b8990',
  haze: '#241d19',
  lamp: '#fff0dd',
  dusk: '#9fb2c4',
} as const;

export type Tone = keyof typeof tones;
