import type { Json, JsonObject } from '../state/file-path.ts';
import { isObject } from '../state/file-path.ts';

/** A price as it is typed: `3.50 EUR for 8`, or of one sheet `0.45 GBP`. */
export const priceText = (price: Json | undefined): string | undefined => {
  if (!isObject(price)) return price === undefined ? undefined : String(price);
  const { amount, currency, sheets = 1 } = price;
  return `${amount} ${currency}${sheets === 1 ? '' : ` for ${sheets}`}`;
};

const typed = /^(\d+(?:\.\d+)?)\s*([a-z]{3})(?:\s+for\s+(\d+))?$/i;

/** The price that a text says; null for one that says none. */
export const readPrice = (text: string): JsonObject | null => {
  const found = typed.exec(text.trim());
  if (!found) return null;
  const [, amount = '', currency = '', sheets] = found;
  return {
    amount: Number(amount),
    currency: currency.toUpperCase(),
    ...(sheets === undefined ? {} : { sheets: Number(sheets) }),
  };
};
