import { apply2, type Rigid2 } from '../../core/geometry/rigid2.ts';
import { type Drawing, joinDrawings, moveDrawing } from '../drawing/drawing.ts';
import { arrangePages, type PageSpot, type Size } from './arrange-pages.ts';
import type { Area, PageWords, PrintWay } from './page-frame.ts';

/** A page before it knows its number. */
export interface Leaf {
  readonly subtitle: string;
  readonly way?: PrintWay | undefined;
  readonly tile: PageWords['tile'];
  readonly work: Drawing;
  readonly isWrongSide?: true;
  /** What stands there in place of header and footer. */
  readonly frame?: (words: Pick<PageWords, 'number' | 'count' | 'isWrongSide'>) => Drawing;
}

/** Air between what shares a page, mm: room for scissors. */
const GAP = 4;

/** Things on as few pages as rows of them give, and those that are too large for a page. */
export function leavesOfMany<T extends Size>(
  items: readonly T[],
  area: Area,
  subtitle: string,
  draw: (item: T) => Drawing,
): { readonly leaves: readonly Leaf[]; readonly large: readonly T[] } {
  const spots = arrangePages(items, area, GAP);
  const pages: Drawing[][] = [];
  const large: T[] = [];
  items.forEach((item, i) => {
    const spot = spots[i];
    if (!spot) {
      large.push(item);
      return;
    }
    const onPage = pages[spot.page] ?? [];
    pages[spot.page] = onPage;
    onPage.push(moveDrawing(draw(item), placeOn(area, spot, item)));
  });
  return { leaves: pages.map((parts) => ({ subtitle, tile: null, work: joinDrawings(...parts) })), large };
}

/** From the frame of a box to the page. */
export const placeOn = (area: Pick<Area, 'x' | 'y'>, at: Omit<PageSpot, 'page'>, { height }: Size): Rigid2 => {
  const corner = [area.x + at.x, area.y + at.y] as const;
  return at.turned
    ? { cos: 0, sin: 1, move: apply2({ cos: 1, sin: 0, move: corner }, [height, 0]) }
    : { cos: 1, sin: 0, move: corner };
};
