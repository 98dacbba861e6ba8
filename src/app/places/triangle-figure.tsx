import type { ReactElement } from 'react';
import { drawTriangle } from '../draw/right-triangle.ts';

interface Leg {
  /** mm */
  readonly length: number;
  readonly text: string;
}

/** A right triangle at true proportions, its mirror image beside it, each side with its words. */
export const TriangleFigure = ({
  up,
  across,
  slanted,
}: {
  readonly up: Leg;
  readonly across: Leg;
  readonly slanted: string;
}): ReactElement => {
  const { width, height, eave, under, peak, other } = drawTriangle(up.length, across.length);
  // Left of the middle of the slanted side, but never off the picture.
  const slantX = Math.max((eave[0] + peak[0]) / 2 - 10, slanted.length * 7.2 + 6);
  const onSlant = Math.max(0, Math.min(1, (slantX + 10 - eave[0]) / (peak[0] - eave[0])));
  const slantY = eave[1] + (peak[1] - eave[1]) * onSlant - 8;
  return (
    <svg
      className="triangle"
      viewBox={`0 0 ${width} ${height.toFixed(1)}`}
      role="img"
      aria-label={`Right triangle: ${up.text}, ${across.text}, ${slanted}`}
    >
      <path className="half" d={`M${eave.join(' ')}L${under.join(' ')}L${peak.join(' ')}Z`} />
      <path className="other-half" d={`M${under.join(' ')}L${other.join(' ')}L${peak.join(' ')}`} />
      <path className="corner" d={`M${under[0] - 9} ${under[1]}v-9h9`} />
      <line x1={eave[0]} y1={eave[1]} x2={under[0]} y2={under[1]} />
      <line x1={under[0]} y1={under[1]} x2={peak[0]} y2={peak[1]} />
      <line className="slant" x1={eave[0]} y1={eave[1]} x2={peak[0]} y2={peak[1]} />
      <text className="slant-text" x={slantX} y={slantY} textAnchor="end">
        {slanted}
      </text>
      <text x={under[0] + 8} y={(under[1] + peak[1]) / 2 + 4}>
        {up.text}
      </text>
      <text x={(eave[0] + under[0]) / 2} y={under[1] + 20} textAnchor="middle">
        {across.text}
      </text>
    </svg>
  );
};
