import { cutLayers } from '../../core/cut-layers.ts';
import { rest2 } from '../../core/geometry/rigid2.ts';
import type { Production } from '../../core/pipeline.ts';
import { type Drawing, joinDrawings, type Label, labelAt, line, moveDrawing } from './drawing.ts';
import { type LineRole, lineStyles } from './lines.ts';
import { upArrow } from './name-block.ts';
import { CAP_HEIGHT, textWidth } from './text-width.ts';

/** A drawing that fills a box from (0, -height) to (width, 0): its origin is its upper left corner. */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly drawing: Drawing;
}

export const TEXT_SIZE = 2.5;
const ROW = 4;
const SAMPLE = 15;
const GAP = 2.5;

const sampled: readonly LineRole[] = ['cut', 'fold-mountain', 'fold-valley', 'glue'];

export interface LegendOptions {
  /** With the line where tiles meet. */
  readonly tiles: boolean;
  /** With the line that paper is rolled about. */
  readonly rolled: boolean;
  /** At most so many columns; as many as the width allows where it is not said. */
  readonly columns?: number;
}

/** Whether any piece is rolled, so that the legend has to say about which lines. */
export const hasRolled = ({ roofs }: Production): boolean =>
  roofs.some((roof) => cutLayers(roof).some(({ net }) => net.pieces.some((piece) => piece.rulings.length > 0)));

/** What the lines and signs of a sheet mean: at least one column, whatever the width. */
export const drawLegend = (room: number, options: LegendOptions): Block => {
  const entries: readonly { readonly text: string; readonly draw: (middle: number) => Drawing }[] = [
    ...[
      ...sampled,
      ...(options.rolled ? (['ruling'] as const) : []),
      ...(options.tiles ? (['trim'] as const) : []),
    ].map((role) => ({
      text: lineStyles[role].legend ?? '',
      draw: (y: number): Drawing => ({ strokes: [line(role, [0, y], [SAMPLE, y])], labels: [] }),
    })),
    {
      text: 'letters: A is joined to A',
      draw: (y: number): Drawing => ({
        strokes: [],
        labels: [3.5, SAMPLE - 3.5].map((x) => letter('A', x, y)),
      }),
    },
    {
      text: 'up the roof',
      draw: (y: number): Drawing => ({ strokes: upArrow([SAMPLE / 2, y - 1.5], [1, 0], 3), labels: [] }),
    },
  ];
  const widest = SAMPLE + GAP + Math.max(...entries.map(({ text }) => textWidth(text, TEXT_SIZE)));
  const columns = Math.min(options.columns ?? entries.length, Math.max(1, Math.floor((room + 8) / (widest + 8))));
  const rows = Math.ceil(entries.length / columns);
  const drawings = entries.map(({ text, draw }, i): Drawing => {
    const x = Math.floor(i / rows) * (widest + 8);
    const y = -((i % rows) + 0.5) * ROW;
    const name = labelAt(text, [x + SAMPLE + GAP, y - (CAP_HEIGHT * TEXT_SIZE) / 2], TEXT_SIZE);
    return joinDrawings(moveDrawing(draw(y), { ...rest2, move: [x, 0] }), { strokes: [], labels: [name] });
  });
  const used = Math.ceil(entries.length / rows);
  return { width: used * (widest + 8) - 8, height: rows * ROW, drawing: joinDrawings(...drawings) };
};

const letter = (text: string, x: number, y: number): Label =>
  labelAt(text, [x, y - (CAP_HEIGHT * TEXT_SIZE) / 2], TEXT_SIZE, { align: 'middle' });
