import { type ReactElement, useId, useState } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { UprightTriangle } from '../../core/guide/panel-triangles.ts';

const WIDTH = 308;
const HEIGHT = 190;
const EDGE = 12;
/** Steps of the slider from a flat roof to one twice as high. */
const STEPS = 40;

/** A rise to play with: the plan of the panel stays as it is, and the panel grows. The roof itself is not changed. */
export const RiseTrial = ({
  upright,
  flat,
  show,
}: {
  readonly upright: UprightTriangle;
  readonly flat: readonly Vec2[];
  readonly show: (mm: number) => string;
}): ReactElement => {
  const [step, setStep] = useState(STEPS / 2);
  const id = useId();
  const rise = (upright.rise * step * 2) / STEPS;
  const slant = Math.hypot(rise, upright.run);
  const most = Math.hypot(2 * upright.rise, upright.run);
  const wide = Math.max(...flat.map(([x]) => x));
  const scale = Math.min((WIDTH / 2 - 2 * EDGE) / wide, (HEIGHT - 2 * EDGE - 18) / most);
  // Across the panel nothing changes; up it, everything by one share.
  const outline = (left: number, length: number): string =>
    flat
      .map(
        ([x, y]) =>
          `${(left + x * scale).toFixed(1)} ${(HEIGHT - EDGE - (y / upright.slant) * length * scale).toFixed(1)}`,
      )
      .join('L');
  return (
    <>
      <svg
        className="triangle"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Seen from above the panel stays ${show(upright.run)} deep; laid flat it is ${show(slant)} long.`}
      >
        <text x={EDGE} y={18}>
          from above
        </text>
        <text x={WIDTH / 2 + EDGE} y={18}>
          laid flat
        </text>
        <path className="other-half" d={`M${outline(EDGE, upright.run)}Z`} />
        <path className="half outlined" d={`M${outline(WIDTH / 2 + EDGE, slant)}Z`} />
      </svg>
      <p className="trial">
        <label htmlFor={id}>A rise to try</label>
        <input
          id={id}
          type="range"
          min={0}
          max={STEPS}
          value={step}
          aria-valuetext={show(rise)}
          onChange={(event) => setStep(Number(event.target.value))}
        />
      </p>
      <p aria-live="polite">
        Were it <b>{show(rise)}</b> high, the panel would be <b>{show(slant)}</b> long. From above it stays{' '}
        <b>{show(upright.run)}</b>. Your roof is not changed by this.
      </p>
    </>
  );
};
