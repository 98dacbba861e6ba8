/** A number as typed, kept as a quotient of whole numbers so that 1.1 cm is exactly 11 mm. */
export interface Amount {
  readonly top: number;
  readonly bottom: number;
}

/** More decimals than this leave the whole numbers of a double. */
const MOST_DIGITS = 15;

const VULGAR_FRACTION = /[\u00BC-\u00BE\u2150-\u215E]|[\u2070\u00B9\u00B2\u00B3\u2074-\u2079]+\u2044[\u2080-\u2089]+/g;

/**
 * Plain characters for the typographic ones: `3⅝″` becomes `3 5/8"`. Lower case, single spaces, trimmed.
 * Two apostrophes in a row are an inch sign.
 */
export function plainText(text: string): string {
  return text
    .replace(VULGAR_FRACTION, (fraction) => ` ${fraction.normalize('NFKC')} `)
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u2212\u2010\u2011\u2012\u2013]/g, '-')
    .replace(/[\u2032\u2018\u2019\u00B4`]/g, "'")
    .replace(/[\u2033\u201C\u201D]/g, '"')
    .replace(/''/g, '"')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}

/** `3`, `3.4375`, `.5`, `7/16`, `3 7/16` or `3-7/16`, without a sign; a fraction after a whole number is under 1. */
export function readAmount(plain: string): Amount | null {
  const decimal = /^(\d*)(?:\.(\d+))?$/.exec(plain);
  if (decimal && plain !== '') return decimalAmount(decimal[1] ?? '', decimal[2] ?? '');
  const fraction = /^(?:(\d+)(?: | ?- ?))?(\d+) ?\/ ?(\d+)$/.exec(plain);
  if (!fraction) return null;
  const top = Number(fraction[2]);
  const bottom = Number(fraction[3]);
  if (bottom === 0) return null;
  if (fraction[1] === undefined) return checked({ top, bottom });
  return top < bottom ? checked({ top: Number(fraction[1]) * bottom + top, bottom }) : null;
}

function decimalAmount(whole: string, decimals: string): Amount | null {
  if (whole.length + decimals.length > MOST_DIGITS) return checked({ top: Number(`${whole}.${decimals}`), bottom: 1 });
  return { top: Number(whole + decimals), bottom: 10 ** decimals.length };
}

const checked = (amount: Amount): Amount | null =>
  Number.isFinite(amount.top) && Number.isFinite(amount.bottom) ? amount : null;

export const addAmounts = (a: Amount, b: Amount): Amount => ({
  top: a.top * b.bottom + b.top * a.bottom,
  bottom: a.bottom * b.bottom,
});

export const timesAmount = (amount: Amount, whole: number): Amount => ({
  top: amount.top * whole,
  bottom: amount.bottom,
});

export const amountValue = (amount: Amount): number => amount.top / amount.bottom;
