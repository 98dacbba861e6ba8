/** The text with every length in one piece: no line ends between a number, its fraction and its unit. */
export const unbroken = (text: string): string =>
  text.replaceAll(/\d[\d/ .]*(?:mm|in)\b/g, (length) => length.replaceAll(' ', '\u00a0'));
