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

/** Before it is drawn in a label may also stand off the middle of its side, pixels. */
const ALONG = [0, 26, -26, 52, -52];

/** Where a label has no room it is drawn in to this size until a hand or the keys come to it. */
const TIGHT: Vec2 = [40, 30];

export interface Placed {
  readonly middle: Vec2;
  readonly isTight: boolean;
}

/**
 * Every label as near to its side as it can stand clear of those before it and of `taken`, within the room: first away
 * from the side, then into it; drawn in where there is no such place.
 */
export const placeLabels = (labels: readonly Label[], taken: readonly Block[], room: Room): readonly Placed[] => {
  const blocks: Block[] = [...taken];
  return labels.map((label) => {
    const whole = standClear(label, label.size, blocks, room);
    const found = whole ?? standClear(label, TIGHT, blocks, room) ?? inRoom(label, TIGHT, GAP, room);
    blocks.push(found);
    // It opens about its middle, so that there has to be room for the whole of it.
    return { middle: inside(found.middle, label.size, room), isTight: whole === null };
  });
};

const inside = ([x, y]: Vec2, [width, height]: Vec2, room: Room): Vec2 => {
  const within = (value: number, own: number, all: number): number =>
    Math.max(own / 2 + 2, Math.min(all - own / 2 - 2, value));
  return [within(x, width, room.width), within(y, height, room.height)];
};

const inRoom = ({ at, out }: Label, size: Vec2, way: number, room: Room, along = 0): Block => {
  const reach = (Math.abs(out[0]) * size[0] + Math.abs(out[1]) * size[1]) / 2;
  const far = way < 0 ? way - reach : way + reach;
  const middle: Vec2 = [at[0] + out[0] * far - out[1] * along, at[1] + out[1] * far + out[0] * along];
  return { size, middle: inside(middle, size, room) };
};

const standClear = (label: Label, size: Vec2, blocks: readonly Block[], room: Room): Block | null => {
  const ways = Array.from({ length: 1 + (FARTHEST - GAP) / STEP }, (_, i) => GAP + i * STEP);
  const spots = ALONG.flatMap((along) =>
    [...ways, ...ways.map((way) => -way)].map((way) => inRoom(label, size, way, room, along)),
  );
  return spots.find((spot) => !blocks.some((block) => overlap(spot, block))) ?? null;
};

/** Distance of the squares of the paper, mm, so that they are neither a haze nor lost. */
export const squareSize = (pixelsPerMm: number, mark: number): number => {
  let size = mark;
  while (size * pixelsPerMm < 22) size *= 2;
  return size;
};
