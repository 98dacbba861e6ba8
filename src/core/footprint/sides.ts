import { at } from '../geometry/polygon.ts';
import { sub2, type Vec2 } from '../geometry/vector.ts';
import { titleCase, windOf } from '../solid/compass.ts';

export interface SideName {
  readonly id: string;
  readonly title: string;
}

/** Half of the winds the compass knows: enough to tell the sides of a house apart. */
const WINDS = 8;

/**
 * Names for every side of a plan, edge by edge and ring after ring: the wind it faces, numbered in order round where several
 * face alike. The first ring is the outline counter-clockwise, the others courts clockwise, whose sides face into the court.
 */
export function sideNames(rings: readonly (readonly Vec2[])[]): readonly SideName[] {
  return rings.flatMap((ring, r) => {
    const taken = new Map<string, number>();
    const court = r === 0 ? '' : r === 1 ? 'court-' : `court-${r}-`;
    return ring.map((p, i): SideName => {
      const [x, y] = sub2(at(ring, i + 1), p);
      const wind = `${court}${windOf(y, -x, WINDS)}`;
      const count = (taken.get(wind) ?? 0) + 1;
      taken.set(wind, count);
      const id = count === 1 ? wind : `${wind}-${count}`;
      return { id, title: titleOf(id) };
    });
  });
}

/** Ids of the walls around a body, courts apart, in the order of its outline; of a round one the winds they face. */
export const wallNames = ({
  outline,
  isRound,
}: {
  readonly outline: readonly Vec2[];
  readonly isRound?: true;
}): readonly string[] => (isRound ? ROUND_WALLS : sideNames([outline]).map(({ id }) => id));

const ROUND_WALLS = ['south', 'south-east', 'east', 'north-east', 'north', 'north-west', 'west', 'south-west'];

/** `court-2-south-east-3` as `Court 2 south-east 3`. */
const titleOf = (id: string): string =>
  titleCase(
    id
      .replace(/^court-/, 'court ')
      .replace(/^(court \d+)-/, '$1 ')
      .replace(/-(\d+)$/, ' $1'),
  );
