/** Of a letter of a caption in the middle, pixels. */
const LETTER = 7;

/**
 * A sheet's name: in one line, or in two no wider than the sheet as far as letters can be counted; its bare number on one that is
 * too small for both.
 *
 * @param name of its paper
 * @param index of the sheet, from 0
 * @param width of the sheet in the picture, pixels
 * @param side which side of it is up, where that is to be said
 */
export const captionOf = (name: string, index: number, width: number, side?: string): readonly string[] => {
  const number = `sheet ${index + 1}`;
  const last = side === undefined ? number : `${number}, ${side}`;
  const letters = Math.floor(width / LETTER);
  if (name.length + last.length + 2 <= letters) return [`${name}, ${last}`];
  if (number.length > letters) return [`${index + 1}`];
  return [name.length <= letters ? name : `${name.slice(0, letters - 1).trimEnd()}…`, last];
};
