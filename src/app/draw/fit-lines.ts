import { mismatchOf } from '../../core/fit/closing.ts';
import { type Fit, showGap } from '../../core/fit/fit.ts';
import type { WallOverhang } from '../../core/fit/overhang.ts';
import type { Place } from '../../core/issue.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import { edgeTitle } from '../../core/solid/edge-title.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { isSameLength, NOISE_MM } from '../../core/tolerance.ts';
import { formatLength, MM_PER_INCH, type Ruler, type Units } from '../../core/units/units.ts';

/** One thing that the fit tells, and where on the roof it is. */
export interface FitLine {
  readonly id: string;
  readonly text: string;
  readonly place: Place | null;
}

interface Style {
  readonly units: Units;
  readonly ruler: Ruler;
}

type Made = NonNullable<MadeRoof['made']>;

const idsOf = ({ edges }: Solid, found: readonly (number | null)[]): readonly string[] => [
  ...new Set(found.flatMap((edge) => (edge === null ? [] : [edges[edge]?.id ?? '']))),
];

const at = (edges: readonly string[]): Place | null => (edges.length === 0 ? null : { edges });

/** How it sits: overhang wall by wall (in one line where all are alike), the level of the eaves, what stands beside it. */
export const standLines = ({ solid, fit }: Made, style: Style): readonly FitLine[] => {
  const show = (mm: number): string => formatLength(mm, style);
  return [
    ...overhangLines(solid, fit, show),
    ...eaveLine(solid, fit, show),
    ...fit.clearances.map(({ neighbour, distance, edges }, i): FitLine => {
      const beside = `the house to the ${neighbour.side}`;
      const text = distance < 0 ? `Runs ${show(-distance)} into ${beside}.` : `${show(distance)} clear of ${beside}.`;
      return { id: `neighbour ${i}`, text, place: at(idsOf(solid, edges)) };
    }),
  ];
};

const overhangLines = (solid: Solid, { overhang }: Fit, show: (mm: number) => string): readonly FitLine[] => {
  if (overhang === null) return [];
  const { walls } = overhang;
  const range = (distances: readonly number[]): string => {
    const [least, most] = [show(Math.min(...distances)), show(Math.max(...distances))];
    return least === most ? least : `${least} to ${most}`;
  };
  const all = walls.flatMap((wall) => wall.distances);
  const edgesOf = (some: readonly WallOverhang[]): Place | null =>
    at(
      idsOf(
        solid,
        some.flatMap((wall) => wall.edges),
      ),
    );
  if (isSameLength(Math.min(...all), Math.max(...all)))
    return [{ id: 'overhang', text: `Stands out ${range(all)} on every side.`, place: edgesOf(walls) }];
  return walls.map((wall) => ({
    id: `overhang ${wall.id}`,
    text: `${wall.title}: stands out ${range(wall.distances)}.`,
    place: edgesOf([wall]),
  }));
};

const eaveLine = (solid: Solid, { eaves, rest }: Fit, show: (mm: number) => string): readonly FitLine[] => {
  if (eaves.length === 0) return [];
  const place = at(solid.edges.filter(({ role }) => role === 'eave').map(({ id }) => id));
  const heights = eaves.map(show);
  const over = rest > 0 ? ' over the table' : '';
  const last = heights.at(-1);
  const text =
    heights.length === 1
      ? `Every eave level, ${last}${over}.`
      : `Eaves level at ${heights.slice(0, -1).join(', ')} and ${last}${over}.`;
  return [{ id: 'eaves', text, place }];
};

/** Finer than any ruler: thousandths of an inch, hundredths of a millimetre. */
const showPlay = (mm: number, { units }: Style): string =>
  units === 'in' ? `${Number((mm / MM_PER_INCH).toFixed(3))} in` : `${Number(mm.toFixed(2))} mm`;

/** How its seat stands in or over the walls. */
export const seatLines = ({ spec, made }: Pick<MadeRoof, 'spec' | 'made'>, style: Style): readonly FitLine[] => {
  const { seat } = spec;
  if (!seat || !made?.seat) return [];
  const where = seat.fits === 'inside' ? 'in the walls' : 'over the walls';
  const faces = made.seat.solid.faces.map(({ id }) => id);
  const { min, max } = made.fit.seat?.marked ?? { min: seat.play, max: seat.play };
  const [least, most] = [showPlay(min, style), showPlay(max, style)];
  const marked =
    isSameLength(min, seat.play) && isSameLength(max, seat.play)
      ? ''
      : `; once rounded ${least === most ? least : `${least} to ${most}`}`;
  return [
    {
      id: 'seat',
      text: `The seat stands ${where} with ${showPlay(seat.play, style)} of play on each side${marked}.`,
      place: { layer: made.layers.length, faces },
    },
  ];
};

/** How its seams close: true lengths, and what is left once every mark is rounded to the ruler. */
export const seamLines = ({ layers, fit }: Made, style: Style): readonly FitLine[] =>
  fit.seams.map(({ layer, edge, mark, lengths, marked }, i) => {
    const solid = layers[layer]?.solid;
    const found = solid?.edges[edge];
    const differs = Math.abs(lengths[0] - lengths[1]) > NOISE_MM ? ', its sides not alike' : '';
    const off = mismatchOf({ edge, lengths: marked });
    const rounded = off > NOISE_MM ? `; ${showGap(off, style.units)} off once rounded` : '';
    const title = solid === undefined ? '' : `${edgeTitle(solid, edge)}: `;
    return {
      id: `seam ${i}`,
      text: `${mark} · ${title}${formatLength(lengths[0], style)}${differs}${rounded}`,
      place: found === undefined ? null : { layer, edges: [found.id] },
    };
  });

/** The widest gap that rounding leaves where panels meet at a top point; nothing where they all close. */
export const peakLines = ({ layers, fit }: Made, { units }: Style): readonly FitLine[] => {
  const [widest] = [...fit.peaks].sort((a, b) => b.gap - a.gap);
  if (widest === undefined || widest.gap <= NOISE_MM) return [];
  const edges = layers[widest.layer]?.solid.edges.filter(({ ends }) => ends.includes(widest.vertex)) ?? [];
  return [
    {
      id: 'peak',
      text: `At the top the panels meet within ${showGap(widest.gap, units)} once rounded.`,
      place: { layer: widest.layer, edges: edges.map(({ id }) => id) },
    },
  ];
};
