import type { ReactElement } from 'react';
import { frontMeasures } from '../../core/solid/measure.ts';
import { isPositive } from '../../core/tolerance.ts';
import { formatLength, MM_PER_INCH } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { drawTriangle } from '../draw/right-triangle.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The right triangle inside this roof, and in plain words why its slanted side is the longest. */
export const RightTriangle = ({ hand }: { readonly hand: RoofAtHand }): ReactElement | null => {
  const style = useStyle();
  const solid = hand.roof.made?.solid;
  if (solid === undefined) return null;
  const { rise, run, slant } = frontMeasures(solid);
  // A level deck or a panel that leans out has no such triangle.
  if (!isPositive(rise) || !isPositive(run)) return null;
  const show = (mm: number): string => formatLength(mm, style);
  const unit = style.units === 'in' ? MM_PER_INCH : 1;
  const plain = (mm: number): string => (mm / unit).toFixed(style.units === 'in' ? 2 : 1);
  const square = (mm: number): string => ((mm / unit) ** 2).toFixed(style.units === 'in' ? 2 : 0);
  const { width, height, eave, under, peak, other } = drawTriangle(rise, run);
  const slantText = `slant ${show(slant)}`;
  // Left of the middle of the slanted side, but never off the picture.
  const slantX = Math.max((eave[0] + peak[0]) / 2 - 10, slantText.length * 7.2 + 6);
  const onSlant = Math.max(0, Math.min(1, (slantX + 10 - eave[0]) / (peak[0] - eave[0])));
  const slantY = eave[1] + (peak[1] - eave[1]) * onSlant - 8;

  return (
    <section className="group">
      <h3>Why the panel is longer than the roof is high</h3>
      <svg
        className="triangle"
        viewBox={`0 0 ${width} ${height.toFixed(1)}`}
        role="img"
        aria-label={`Rise ${show(rise)}, run ${show(run)}, slant ${show(slant)}`}
      >
        <path className="half" d={`M${eave.join(' ')}L${under.join(' ')}L${peak.join(' ')}Z`} />
        <path className="other-half" d={`M${under.join(' ')}L${other.join(' ')}L${peak.join(' ')}`} />
        <path className="corner" d={`M${under[0] - 9} ${under[1]}v-9h9`} />
        <line x1={eave[0]} y1={eave[1]} x2={under[0]} y2={under[1]} />
        <line x1={under[0]} y1={under[1]} x2={peak[0]} y2={peak[1]} />
        <line className="slant" x1={eave[0]} y1={eave[1]} x2={peak[0]} y2={peak[1]} />
        <text className="slant-text" x={slantX} y={slantY} textAnchor="end">
          {slantText}
        </text>
        <text x={under[0] + 8} y={(under[1] + peak[1]) / 2 + 4}>
          rise {show(rise)}
        </text>
        <text x={(eave[0] + under[0]) / 2} y={under[1] + 20} textAnchor="middle">
          run {show(run)}
        </text>
      </svg>
      <p>
        The front panel gets <b>{show(rise)}</b> high. But it does not stand straight up: it leans in, and on its way to
        the top it also has to get <b>{show(run)}</b> across, from above the eave to under its top.
      </p>
      <p>
        Up <em>and</em> across is a longer way than only up. So the middle of the panel, from eave to top, is{' '}
        <b>{show(slant)}</b>: the longest side of the triangle.
      </p>
      <p className="note">
        Try it: {plain(rise)} × {plain(rise)} + {plain(run)} × {plain(run)} makes about {square(slant)}, and so does{' '}
        {plain(slant)} × {plain(slant)}.
      </p>
    </section>
  );
};
