import { boxOf } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';

/** How a plan lies on the sheet: mm to page pixels, y down. */
export interface PlanView {
  readonly pixelsPerMm: number;
  readonly toPage: (p: Vec2) => Vec2;
  readonly toPlan: (p: Vec2) => Vec2;
}

export interface Room {
  readonly width: number;
  readonly height: number;
  /** Free pixels at the sides, and at top and bottom, for what stands outside the plan. */
  readonly margin: Vec2;
}

/** As large as it fits between the margins, in the middle; the front at the bottom. */
export const fitPlan = (points: readonly Vec2[], { width, height, margin }: Room): PlanView => {
  const { minX, minY, maxX, maxY } = boxOf(points);
  const across = Math.max(20, width - 2 * margin[0]) / Math.max(maxX - minX, 1);
  const up = Math.max(20, height - 2 * margin[1]) / Math.max(maxY - minY, 1);
  const pixelsPerMm = Math.min(across, up, 12);
  const [midX, midY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  return {
    pixelsPerMm,
    toPage: ([x, y]) => [width / 2 + (x - midX) * pixelsPerMm, height / 2 - (y - midY) * pixelsPerMm],
    toPlan: ([x, y]) => [midX + (x - width / 2) / pixelsPerMm, midY - (y - height / 2) / pixelsPerMm],
  };
};

export interface Label {
  /** What it belongs to, and the way it stands away from there: page pixels, a unit vector. */
  readonly at: Vec2;
  readonly out: Vec2;
  readonly size: Vec2;
}

interface Block {
  readonly middle: Vec2;
  readonly size: Vec2;
}

const overlap = (a: Block, b: Block): boolean =>
  Math.abs(a.middle[0] - b.middle[0]) < (a.size[0] + b.size[0]) / 2 &&
  Math.abs(a.middle[1] - b.middle[1]) < (a.size[1] + b.size[1]) / 2;

/** Pixels between a label and its side, one step further away, and the farthest that it is still seen to belong there. */
const GAP = 8;
const STEP = 6;
const FARTHEST = 66;

/**
 * The middle of every label: as near to its side as it can stand clear of those before it and of `taken`, within the room;
 * first away from the side, then into it. Where there is no such place it stands where it belongs.
 */
export const placeLabels = (labels: readonly Label[], taken: readonly Block[], room: Room): readonly Vec2[] => {
  const blocks: Block[] = [...taken];
  return labels.map(({ at, out, size }) => {
    const reach = (Math.abs(out[0]) * size[0] + Math.abs(out[1]) * size[1]) / 2;
    const within = (value: number, own: number, whole: number): number =>
      Math.max(own / 2 + 2, Math.min(whole - own / 2 - 2, value));
    const spot = (way: number): Block => ({
      size,
      middle: [within(at[0] + out[0] * way, size[0], room.width), within(at[1] + out[1] * way, size[1], room.height)],
    });
    const ways: number[] = [];
    for (let way = GAP; way <= FARTHEST; way += STEP) ways.push(way + reach);
    const all = [...ways, ...ways.map((way) => -way)].map(spot);
    const found = all.find((one) => !blocks.some((block) => overlap(one, block))) ?? spot(GAP + reach);
    blocks.push(found);
    return found.middle;
  });
};

/** Distance of the squares of the paper, mm, so that they are neither a haze nor lost. */
export const squareSize = (pixelsPerMm: number, mark: number): number => {
  let size = mark;
  while (size * pixelsPerMm < 22) size *= 2;
  return size;
};
