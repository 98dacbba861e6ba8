import { type Label, labelAt } from './drawing.ts';
import { Texts } from './set-out/texts.ts';

/** Heights of a number from the one wished for down, and how far above or below its place it may stand, in such heights. */
const SHARES = [1, 0.8, 0.62];
const ASIDE = [0, 1.1, -1.1, 2.2, -2.2];

/** Numbers at their places, `size` high, clear of each other: smaller or aside where there is no room; where none is, the smallest. */
export function clearNumbers(
  texts: readonly { readonly text: string; readonly at: readonly [number, number] }[],
  size: number,
): readonly Label[] {
  const taken = new Texts();
  return texts.flatMap(({ text, at: [x, y] }) => {
    const places = SHARES.flatMap((share) =>
      ASIDE.map((aside) => labelAt(text, [x, y + (aside - 0.36) * size], share * size, { align: 'middle' })),
    );
    const placed = taken.place(places);
    return placed.length > 0 ? placed : places.slice(-ASIDE.length).slice(0, 1);
  });
}
