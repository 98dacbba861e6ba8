import type { ReactElement } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LinePicture } from '../../core/guide/line-picture.ts';
import { clearNumbers } from '../../io/drawing/clear-numbers.ts';

/** The numbers of a picture are so high, as a share of its longer side. */
const NUMBER = 0.045;

/** Lines as a picture of one ink, y up made y down. */
export const LineFigure = ({
  picture: { lines, box },
  alt,
  numbers = [],
}: {
  readonly picture: LinePicture;
  readonly alt: string;
  /** At places of the picture, which then is larger. */
  readonly numbers?: readonly { readonly text: string; readonly at: Vec2 }[];
}): ReactElement => {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const size = Math.max(width, height, 1e-6);
  const edge = size * 0.02;
  const show = ([x, y]: Vec2): string => `${(x - box.minX).toFixed(2)} ${(box.maxY - y).toFixed(2)}`;
  const view = [-edge, -edge, width + 2 * edge, height + 2 * edge].map((n) => n.toFixed(2)).join(' ');
  return (
    <svg
      className={numbers.length > 0 ? 'line-figure has-numbers' : 'line-figure'}
      viewBox={view}
      role="img"
      aria-label={alt}
    >
      <path d={lines.map(([a, b]) => `M${show(a)}L${show(b)}`).join('')} />
      {clearNumbers(numbers, size * NUMBER).map(({ text, at: [x, y], size: high }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: numbers of like pieces repeat, and never move.
        <text key={i} x={x - box.minX} y={box.maxY - y} fontSize={high} textAnchor="middle">
          {text}
        </text>
      ))}
    </svg>
  );
};
