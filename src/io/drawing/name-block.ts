import { add2, left2, scale2, sub2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Panel } from '../../core/net/net.ts';
import { type Drawing, type Label, labelAt, line, type Stroke } from './drawing.ts';
import { findSpot, type Obstacles, type Spot } from './fit-label.ts';
import { CAP_HEIGHT, DESCENT, textWidth } from './text-width.ts';

/** Letter heights (em, mm) tried for a panel's name, and the least that is still read. */
export const NAME_SIZES = [3.4, 3, 2.6, 2.3, 2] as const;
export const SMALL_SIZES = [...NAME_SIZES, 1.8, 1.6] as const;

/** An up arrow or none with lines of text under it. */
export interface NameBlock {
  readonly size: number;
  readonly arrow: boolean;
  readonly texts: readonly string[];
}

/** Arrow and name as large as fits, else either. */
export const plainBlocks = (title: string): readonly NameBlock[] => [
  ...SMALL_SIZES.map((size) => ({ size, arrow: true, texts: [title] })),
  ...SMALL_SIZES.map((size) => ({ size, arrow: false, texts: [title] })),
  ...SMALL_SIZES.map((size) => ({ size, arrow: true, texts: [] })),
];

/** The first of the blocks that finds room on a panel. */
export const namePanel = (
  { polygon }: Pick<Panel, 'polygon'>,
  along: Vec2,
  blocks: readonly NameBlock[],
  obstacles: Obstacles,
): Drawing | null => {
  for (const attempt of blocks) {
    const rows = blockRows(attempt.size, attempt.arrow, attempt.texts);
    const width = Math.max(...rows.map((row) => row.width));
    const hang = DESCENT * Math.min(...rows.map((row) => row.size));
    const height = rows.reduce((sum, row) => sum + row.height, hang);
    const spot = findSpot(polygon, along, { width, height }, obstacles);
    if (spot !== null) return drawBlock(spot, rows);
  }
  return null;
};

interface BlockRow {
  readonly text: string | null;
  readonly size: number;
  readonly width: number;
  /** From the top of the row to its baseline. */
  readonly height: number;
}

const blockRows = (size: number, hasArrow: boolean, texts: readonly string[]): readonly BlockRow[] => [
  ...(hasArrow ? [{ text: null, size, width: size * 0.6, height: size * 1.5 }] : []),
  ...texts.map((text, i) => {
    const own = i === 0 ? size : size * 0.78;
    const above = i === 0 ? (hasArrow ? 0.5 : 0) : 0.55;
    return { text, size: own, width: textWidth(text, own), height: own * (CAP_HEIGHT + above) };
  }),
];

const drawBlock = (spot: Spot, rows: readonly BlockRow[]): Drawing => {
  const up = left2(spot.along);
  const turn = Math.atan2(spot.along[1], spot.along[0]);
  const strokes: Stroke[] = [];
  const labels: Label[] = [];
  let below = spot.height / 2;
  for (const row of rows) {
    below -= row.height;
    const foot = add2(spot.center, scale2(up, below));
    if (row.text === null)
      strokes.push(...upArrow(foot, spot.along, row.height).map((part) => ({ ...part, isInPanel: true as const })));
    else labels.push({ ...labelAt(row.text, foot, row.size, { align: 'middle', turn }), isInPanel: true });
  }
  return { strokes, labels };
};

/** An arrow up the roof from its foot, as high as given. */
export const upArrow = (foot: Vec2, along: Vec2, height: number): readonly Stroke[] => {
  const up = left2(along);
  const tip = add2(foot, scale2(up, height));
  const barb = (side: number): Vec2 => add2(sub2(tip, scale2(up, height * 0.36)), scale2(along, side * height * 0.2));
  return [line('rule', foot, tip), line('rule', barb(-1), tip, barb(1))];
};
