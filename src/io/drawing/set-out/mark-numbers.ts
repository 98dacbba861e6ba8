import type { Box } from '../../../core/geometry/polygon.ts';
import { distance2, lerp2, type Vec2 } from '../../../core/geometry/vector.ts';
import type { SetOutMark } from '../../../core/setout/set-out.ts';
import { type Label, labelAt, line, type Stroke } from '../drawing.ts';
import { CAP_HEIGHT, textWidth } from '../text-width.ts';
import { cross, meets, type Segment, segmentsOf, type Texts, textBox } from './texts.ts';

/** The number of a mark, and the thin line that leads to it where it stands farther off. */
export interface MarkNumber {
  readonly label: Label;
  readonly leader: Stroke | null;
  /** It stands on no line, and not far off. */
  readonly isClear: boolean;
}

interface Picture {
  readonly place: (p: Vec2) => Vec2;
  /** Height of the numbers, mm. */
  readonly size: number;
  /** What is drawn; numbers keep off it where they can. */
  readonly strokes: readonly Stroke[];
  /** Where numbers may stand. */
  readonly room: Box;
}

/** Directions that are tried round a mark, and how far off, in letters. */
const WAYS = 24;
const FARS = [0.35, 0.7, 1.2, 1.8, 2.5, 3.3, 4.2, 5.2, 6.4, 8, 10, 13, 17, 22, 28];

/** From so far on, in letters, a line leads to the number. */
const LED = 0.6;

/** Under this weight a number is found at a glance. */
const NEAR = 4.5;

/** What a letter farther off weighs, a drawn line under the number, one that its leader crosses, another leader
 * so, and a leader through a text. */
const WEIGHT = { far: 1, under: 6, crossed: 0.6, leaders: 3, through: 40 };

/** A place for the number of each mark: as near as it stands clear of texts and of drawn lines. */
export function markNumbers(
  marks: readonly SetOutMark[],
  { place, size, strokes, room }: Picture,
  texts: Texts,
): ReadonlyMap<number, MarkNumber> {
  const drawn = segmentsOf(strokes);
  const found = new Map<number, MarkNumber>();
  // Marks with the most others near them choose first.
  const at = marks.map((mark) => place(mark.at));
  const near = at.map((p) => at.filter((q) => distance2(p, q) <= 4 * size).length);
  const order = marks.map((_, m) => m).sort((a, b) => (near[b] as number) - (near[a] as number) || a - b);
  for (const m of order) {
    const { number } = marks[m] as SetOutMark;
    const best = bestPlace(String(number), at[m] as Vec2, { size, room, drawn, texts });
    texts.take(best.label, best.leader ?? undefined);
    found.set(m, { ...best, leader: best.leader && { ...line('rule', ...best.leader), isLeader: true } });
  }
  return found;
}

interface Place {
  readonly label: Label;
  readonly leader: Segment | null;
  readonly isClear: boolean;
}

function bestPlace(
  text: string,
  at: Vec2,
  {
    size,
    room,
    drawn,
    texts,
  }: { readonly size: number; readonly room: Box; readonly drawn: readonly Segment[]; readonly texts: Texts },
): Place {
  const reach = (FARS.at(-1) as number) * size + textWidth(text, size);
  const around = { minX: at[0] - reach, maxX: at[0] + reach, minY: at[1] - reach, maxY: at[1] + reach };
  const lines = drawn.filter((one) => meets(one, around));
  const [half, high] = [textWidth(text, size) / 2, (size * CAP_HEIGHT) / 2];
  let [best, least]: [Place | null, number] = [null, Number.POSITIVE_INFINITY];
  for (const far of FARS) {
    if (far * WEIGHT.far >= least) break;
    for (let way = 0; way < WAYS; way++) {
      // The diagonals first: lines mostly go level and upright.
      const angle = ((way * 2 + 1) * Math.PI) / WAYS;
      const [u, v] = [Math.cos(angle), Math.sin(angle)];
      const middle: Vec2 = [at[0] + u * (far * size + half), at[1] + v * (far * size + high)];
      const label = labelAt(text, [middle[0], middle[1] - high], size, { align: 'middle' });
      const box = textBox(label);
      const isInside = box.minX >= room.minX && box.maxX <= room.maxX && box.minY >= room.minY && box.maxY <= room.maxY;
      if (!isInside || !texts.isFree(box)) continue;
      const leader: Segment | null = far > LED ? [at, towards(at, box)] : null;
      const under = lines.filter((one) => meets(one, box)).length;
      const crossed = leader ? lines.filter((one) => cross(one, leader)).length : 0;
      const leaders = leader ? texts.crossed(leader) : 0;
      const through = Number(leader !== null && !texts.isOpen(leader));
      const weight =
        far * WEIGHT.far +
        under * WEIGHT.under +
        crossed * WEIGHT.crossed +
        leaders * WEIGHT.leaders +
        through * WEIGHT.through;
      if (weight < least) [best, least] = [{ label, leader, isClear: under === 0 && weight <= NEAR }, weight];
    }
  }
  return best ?? { label: labelAt(text, [at[0] + half, at[1] + high], size), leader: null, isClear: false };
}

/** The point of a box nearest to another, a little before it. */
function towards(from: Vec2, { minX, minY, maxX, maxY }: Box): Vec2 {
  const on: Vec2 = [Math.min(Math.max(from[0], minX), maxX), Math.min(Math.max(from[1], minY), maxY)];
  return lerp2(from, on, 0.92);
}
