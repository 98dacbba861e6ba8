import type { LayoutSpec, Stock } from '../project/project.ts';

/** Price of one sheet; null where the stock has none. */
export const sheetPrice = ({ price }: Pick<Stock, 'price'>): number | null =>
  price ? price.amount / price.sheets : null;

/** Whether the prices of all stocks that have one can be compared. */
export const areComparable = (stock: readonly Stock[]): boolean =>
  new Set(stock.flatMap(({ price }) => (price ? [price.currency] : []))).size <= 1;

/**
 * Puts a layer's stocks in the order in which they are used: as listed, offcuts before all others where that is asked for, and
 * by their price for an area where the least price is. Without a common currency prices say nothing.
 */
export function orderOfStocks(
  stock: readonly Stock[],
  { prefer, offcuts }: LayoutSpec,
): (indices: readonly number[]) => readonly number[] {
  const byPrice = prefer === 'cheapest' && areComparable(stock);
  const weight = (s: number): readonly [number, number] => {
    const { width, height, outline, ...one } = stock[s] as Stock;
    const isFirst = offcuts === 'first' && outline !== undefined;
    const price = byPrice ? (sheetPrice(one) ?? Number.POSITIVE_INFINITY) : 0;
    return [isFirst ? 0 : 1, price / (width * height)];
  };
  return (indices) =>
    [...indices].sort((a, b) => {
      const [p, q] = [weight(a), weight(b)];
      // Infinite prices make no difference between them.
      return p[0] - q[0] || (p[1] === q[1] ? 0 : p[1] - q[1]);
    });
}
