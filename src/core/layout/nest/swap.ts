import type { Random } from '../../random.ts';
import type { Field } from './field.ts';

/** Two pieces of the larger half, of different shape, change places as far as each may lie where the other lay. */
export function swapTwo(field: Field, random: Random): void {
  const { shapeOf, bin } = field;
  const large = Array.from({ length: field.count }, (_, i) => i)
    .sort((a, b) => shapeOf[b]!.area - shapeOf[a]!.area || a - b)
    .slice(0, Math.max(2, Math.ceil(field.count / 2)));
  const a = large[Math.floor(random() * large.length)]!;
  const able = large.filter(
    (b) => shapeOf[b] !== shapeOf[a] && field.posesIn(a, bin[b]!).length > 0 && field.posesIn(b, bin[a]!).length > 0,
  );
  const b = able[Math.floor(random() * able.length)];
  if (b === undefined) return;
  const [spotA, spotB] = [middleOf(field, a), middleOf(field, b)];
  putAround(field, a, spotB);
  putAround(field, b, spotA);
  field.measureAll();
}

interface Spot {
  readonly bin: number;
  readonly x: number;
  readonly y: number;
}

function middleOf({ x, y, bin, shapeOf }: Field, item: number): Spot {
  const { width, height } = shapeOf[item]!;
  return { bin: bin[item]!, x: x[item]! + width / 2, y: y[item]! + height / 2 };
}

function putAround(field: Field, item: number, { bin, x, y }: Spot): void {
  const poses = field.posesIn(item, bin);
  const pose = Math.min(field.pose[item]!, poses.length - 1);
  const { width, height } = poses[pose]!.shape;
  field.put(item, bin, pose, x - width / 2, y - height / 2);
}
