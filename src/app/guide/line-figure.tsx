import type { ReactElement } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LinePicture } from '../../core/guide/line-picture.ts';

/** A text at a place of the picture. */
export interface FigureText {
  readonly text: string;
  readonly at: Vec2;
}

/** Lines as a picture of one ink, y up made y down. */
export const LineFigure = ({
  picture: { lines, box },
  alt,
  texts = [],
}: {
  readonly picture: LinePicture;
  readonly alt: string;
  readonly texts?: readonly FigureText[];
}): ReactElement => {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const size = Math.max(width, height, 1e-6);
  const edge = size * 0.02;
  const show = ([x, y]: Vec2): string => `${(x - box.minX).toFixed(2)} ${(box.maxY - y).toFixed(2)}`;
  const view = [-edge, -edge, width + 2 * edge, height + 2 * edge].map((n) => n.toFixed(2)).join(' ');
  return (
    <svg className="line-figure" viewBox={view} role="img" aria-label={alt}>
      <path d={lines.map(([a, b]) => `M${show(a)}L${show(b)}`).join('')} />
      {texts.map(({ text, at: [x, y] }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: numbers of like pieces repeat, and never move.
        <text key={i} x={x - box.minX} y={box.maxY - y + size * 0.015} fontSize={size * 0.045} textAnchor="middle">
          {text}
        </text>
      ))}
    </svg>
  );
};
