/**
 * How wide a text prints in the typeface of the sheets (`assets/fonts/ibm-plex-sans-regular.ttf`), so that labels can
 * be fitted without a browser or the font file at hand. A test compares the table with the font.
 */

/** Height of capitals and depth of a g or p, as shares of the em. */
export const CAP_HEIGHT = 0.7;
export const DESCENT = 0.22;

/** Advance in thousandths of the em: every letter that shares a width on one line. */
const advances: readonly (readonly [number, string])[] = [
  [236, ' '],
  [242, '\u0027′'],
  [250, 'ij'],
  [272, ',.l'],
  [273, '‘’'],
  [284, '!'],
  [292, ':;'],
  [314, '|'],
  [317, '[]'],
  [324, 'f'],
  [326, '·'],
  [335, '()'],
  [343, '{}'],
  [351, 't'],
  [367, 'r'],
  [383, '/\\'],
  [396, '•'],
  [399, '-'],
  [400, 'I'],
  [419, '"″'],
  [450, '*'],
  [464, 'z'],
  [468, '°'],
  [474, '”'],
  [475, '“'],
  [477, '?'],
  [487, 's'],
  [492, 'v'],
  [499, 'y'],
  [501, 'L'],
  [503, 'c'],
  [507, 'x'],
  [510, 'J'],
  [527, 'k'],
  [528, 'g'],
  [534, 'a'],
  [549, 'e'],
  [559, 'F'],
  [560, 'o'],
  [565, '_'],
  [568, 'hnu'],
  [572, 'T'],
  [580, 'Zbdpq'],
  [581, 'S'],
  [583, 'E'],
  [588, '–'],
  [593, 'Y'],
  [598, '$'],
  [600, '+0123456789<=>^`~×'],
  [606, 'P'],
  [609, 'V'],
  [613, 'X'],
  [621, 'C'],
  [634, 'K'],
  [640, 'R'],
  [641, 'A'],
  [653, 'B'],
  [671, 'D'],
  [678, 'U'],
  [694, '&'],
  [695, 'G'],
  [707, 'HN'],
  [708, 'OQ'],
  [713, '#'],
  [768, 'w'],
  [780, '—'],
  [812, 'M'],
  [803, '…'],
  [820, '→↑'],
  [824, '¾'],
  [843, '⅞'],
  [847, '¼'],
  [872, '½'],
  [873, 'm'],
  [874, '⅜'],
  [876, '⅝'],
  [891, '@W'],
  [897, '⅛'],
  [927, '%'],
];

const widths: ReadonlyMap<string, number> = new Map(
  advances.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width / 1000] as const)),
);

/** A letter outside the table counts as a full em: nothing in the typeface that a title may hold is much wider. */
const UNKNOWN = 1;

const advanceOf = (letter: string): number =>
  widths.get(letter) ?? widths.get(letter.normalize('NFD').charAt(0)) ?? UNKNOWN;

/** mm; `size` is the height of the em, `tracking` the extra space after each letter but the last, mm. */
export const textWidth = (text: string, size: number, tracking = 0): number => {
  const letters = [...text];
  const advance = letters.reduce((sum, letter) => sum + advanceOf(letter), 0);
  return advance * size + Math.max(0, letters.length - 1) * tracking;
};

/** Words on as few lines as the width allows; one wider than that, such as the marks of a long line, is parted after its dashes. */
export const wrapText = (text: string, size: number, width: number): readonly string[] => {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ')) {
    const parts = textWidth(word, size) > width ? word.split(/(?<=–)/) : [word];
    for (const [i, part] of parts.entries()) {
      const longer = current === '' ? part : `${current}${i === 0 ? ' ' : ''}${part}`;
      if (current !== '' && textWidth(longer, size) > width) {
        lines.push(current);
        current = part;
      } else {
        current = longer;
      }
    }
  }
  return current === '' ? lines : [...lines, current];
};

/** The text, or its start with `…`, so that it is at most so wide. */
export const shortenText = (text: string, size: number, width: number, tracking = 0): string => {
  if (textWidth(text, size, tracking) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, size, tracking) > width) letters.pop();
  return letters.length === 0 ? '' : `${letters.join('').trimEnd()}…`;
};
