export interface RuleTick {
  /** Share of the rule's length, 0 to 1. */
  readonly at: number;
  readonly size: 'long' | 'half' | 'quarter' | 'short';
}

/** The graduation of a steel rule: `units` whole units, each halved, quartered and so on to sixteenths. */
export const ruleTicks = (units: number, parts: 8 | 16): readonly RuleTick[] =>
  Array.from({ length: units * parts + 1 }, (_, i) => {
    const part = i % parts;
    const size = part === 0 ? 'long' : part === parts / 2 ? 'half' : part % (parts / 4) === 0 ? 'quarter' : 'short';
    return { at: i / (units * parts), size };
  });

/** Index of the stop nearest to `t`, and whether `t` stands on it (within the eye's reach of the scrubber). */
export const nearestStop = (
  t: number,
  stops: readonly { readonly t: number }[],
): { readonly index: number; readonly isOn: boolean } => {
  let index = 0;
  stops.forEach((stop, i) => {
    if (Math.abs(stop.t - t) < Math.abs((stops[index]?.t ?? 0) - t)) index = i;
  });
  return { index, isOn: Math.abs((stops[index]?.t ?? 0) - t) < 0.005 };
};
