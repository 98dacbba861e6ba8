import type { ReactElement } from 'react';
import { at } from '../../core/geometry/polygon.ts';
import { cross2, dot2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Solid } from '../../core/solid/solid.ts';
import type { Rings } from './plan-edits.ts';
import type { MadePlan } from './plan-text.ts';
import { type PlanView, squareSize } from './plan-view.ts';

const pathOf = (points: readonly Vec2[]): string =>
  `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`;

/** From the made plan to the typed one: turned, shifted and at typed size. */
const typedFrame = ({ outline }: MadePlan, kept: Rings, scale: number): ((p: readonly number[]) => Vec2) => {
  const own = kept[0] ?? [];
  const made = unit2(sub2(at(outline, 1), at(outline, 0)));
  const typed = unit2(sub2(at(own, 1), at(own, 0)));
  const [cosine, sine] = [dot2(made, typed), cross2(made, typed)];
  const [from, to] = [at(outline, 0), at(own, 0)];
  return ([x = 0, y = 0]) => {
    const [u, v] = [(x - from[0]) / scale, (y - from[1]) / scale];
    return [to[0] + cosine * u - sine * v, to[1] + sine * u + cosine * v];
  };
};

/** Every line of the roof as it is seen from above, in the frame of the typed plan. */
export const roofLines = (
  solid: Solid,
  made: MadePlan,
  kept: Rings,
  scale: number,
): readonly { readonly id: string; readonly role: string; readonly ends: readonly [Vec2, Vec2] }[] => {
  const typed = typedFrame(made, kept, scale);
  return solid.edges.map(({ id, role, ends: [a, b] }) => ({
    id,
    role,
    ends: [typed(solid.vertices[a] ?? []), typed(solid.vertices[b] ?? [])],
  }));
};

interface PlanLinesProps {
  readonly rings: Rings;
  readonly lines: ReturnType<typeof roofLines>;
  readonly view: PlanView;
  readonly width: number;
  readonly height: number;
  /** Size of a square of the paper where there is room for it, mm. */
  readonly mark: number;
  readonly isRefused: boolean;
  /** From the middle of a side to what stands too far from it to be seen to belong there; page pixels. */
  readonly leaders: readonly (readonly [Vec2, Vec2])[];
}

/** Squared paper, the roof's lines from above, and the plan over them; only to be seen. */
export const PlanLines = (props: PlanLinesProps): ReactElement => {
  const { rings, lines, view, width, height, mark, isRefused, leaders } = props;
  const square = squareSize(view.pixelsPerMm, mark) * view.pixelsPerMm;
  const [x, y] = view.toPage([0, 0]);
  return (
    <svg className="plan-lines" width={width} height={height} aria-hidden="true">
      <defs>
        <pattern id="plan-squares" x={x} y={y} width={square} height={square} patternUnits="userSpaceOnUse">
          <path d={`M0 0H${square}M0 0V${square}`} />
        </pattern>
      </defs>
      <rect className="squares" width={width} height={height} fill="url(#plan-squares)" />
      <path className="ground" fillRule="evenodd" d={rings.map((ring) => pathOf(ring.map(view.toPage))).join('')} />
      {lines.map(({ id, role, ends }) => {
        const [a, b] = ends.map(view.toPage) as [Vec2, Vec2];
        return <line key={id} className={`roof-line is-${role}`} x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />;
      })}
      {rings.map((ring, r) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: a court has no name but its number.
          key={r}
          className={`wall ${isRefused ? 'is-refused' : ''}`}
          d={pathOf(ring.map(view.toPage))}
        />
      ))}
      {leaders.map(([a, b]) => (
        <line key={`${a} ${b}`} className="leader" x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />
      ))}
    </svg>
  );
};
