import type { Issue, Place } from '../issue.ts';
import type { Net } from '../net/net.ts';
import type { Body, Neighbour } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import { MM_PER_INCH, type Ruler, type Units } from '../units/units.ts';
import { closing, mismatchOf, type PeakGap, worst } from './closing.ts';
import { ruledMarks } from './marks.ts';
import { type Clearance, clearances } from './neighbours.ts';
import { overhangs, type WallOverhang } from './overhang.ts';
import { restHeight } from './rest.ts';
import { type SeamFit, seamFits } from './seam-fit.ts';
import type { SeatFit } from './seat-fit.ts';

/** How well the net closes and sits on the body. Lengths in mm. */
export interface Fit {
  /** Plan distance from the body's walls out to the eave, and wall by wall; null without a body. */
  readonly overhang: {
    readonly min: number;
    readonly max: number;
    readonly walls: readonly WallOverhang[];
  } | null;
  /** Heights over the table of all eaves, lowest first, each once: every eave is level. */
  readonly eaves: readonly number[];
  /** How near the roof comes to what stands beside its body. */
  readonly clearances: readonly Clearance[];
  /** Every seam of every layer: its length on both its sides, true and as marked. */
  readonly seams: readonly SeamFit[];
  /** Every top point of every layer: the gap that is left once every mark is rounded to the ruler. */
  readonly peaks: readonly (PeakGap & { readonly layer: number })[];
  /** Largest difference between the two sides of a seam once every mark is rounded to the ruler. */
  readonly seamMismatch: number;
  /** Largest gap between panels at a top point once every mark is rounded to the ruler. */
  readonly peakGap: number;
  /** How loosely the collar of a seat sits; missing: no seat. */
  readonly seat?: SeatFit;
  /** Height of the eave plane over the table when the roof rests on its body; 0 without one. */
  readonly rest: number;
  /** As `Closes within 1/64 in.` */
  readonly sentence: string;
}

export interface FitOptions {
  readonly body: Body | null;
  /** The underside, by which the roof rests on its body; missing: as the solid. */
  readonly inside?: Solid;
  readonly neighbours?: readonly Neighbour[];
  /** The roof stands on the walls by a level plate at its eaves. */
  readonly hasPlate?: boolean;
  readonly ruler: Ruler;
  readonly units: Units;
}

/** How the roof of these layers' nets closes when it is set out with the ruler, and how it sits on its body. */
export function fitRoof(
  solid: Solid,
  layers: readonly { readonly solid: Solid; readonly net: Net }[],
  { body, inside = solid, neighbours = [], hasPlate = false, ruler, units }: FitOptions,
): { readonly fit: Fit; readonly issues: readonly Issue[] } {
  const closings = layers.map(({ solid: own, net }) => closing(own, net, ruledMarks(own, net, ruler)));
  const seamMismatch = worst(closings.flatMap(({ seams }) => seams.map(mismatchOf)));
  const peakGap = worst(closings.flatMap(({ peaks }) => peaks.map(({ gap }) => gap)));
  const walls = body ? overhangs(solid, body) : [];
  const out = walls.flatMap((wall) => wall.distances);
  const rest = body ? (hasPlate ? body.height : restHeight(inside, body)) : 0;
  const fit: Fit = {
    overhang: body ? { min: Math.min(...out), max: Math.max(...out), walls } : null,
    eaves: eaveHeights(solid, rest),
    clearances: body ? clearances(solid, body, { neighbours, rest }) : [],
    seams: layers.flatMap((layer, l) => seamFits(layer.net, closings[l]?.seams ?? [], l)),
    peaks: closings.flatMap(({ peaks }, layer) => peaks.map((peak) => ({ ...peak, layer }))),
    seamMismatch,
    peakGap,
    rest,
    sentence: closingSentence(Math.max(seamMismatch, peakGap), units),
  };
  const lowest = rest + Math.min(...solid.vertices.map((v) => v[2]));
  const issues = [
    ...(fit.overhang && fit.overhang.min < -NOISE_MM ? [roofTooSmall(-fit.overhang.min, shortOf(solid, walls))] : []),
    ...(body && lowest < -NOISE_MM ? [belowTable(-lowest, lowestEdges(solid))] : []),
    ...fit.clearances.flatMap(({ neighbour, distance, edges }) =>
      distance < -NOISE_MM
        ? [runsInto(neighbour, neighbours.indexOf(neighbour), -distance, edgesIn(solid, edges))]
        : [],
    ),
  ];
  return { fit, issues };
}

const edgesIn = (solid: Solid, edges: readonly number[]): Place => ({
  edges: edges.map((e) => (solid.edges[e] as Solid['edges'][number]).id),
});

/** The edges that walls stand out beyond. */
const shortOf = (solid: Solid, walls: readonly WallOverhang[]): Place => {
  const found = walls.flatMap(({ distances, edges }) =>
    edges.filter((edge, i) => edge !== null && (distances[i] ?? 0) < -NOISE_MM),
  );
  return edgesIn(
    solid,
    [...new Set(found)].filter((edge) => edge !== null),
  );
};

function lowestEdges(solid: Solid): Place {
  const heights = solid.edges.map(({ ends }) => Math.max(...ends.map((v) => solid.vertices[v]?.[2] ?? 0)));
  const lowest = Math.min(...heights);
  return edgesIn(
    solid,
    heights.flatMap((z, e) => (isSameLength(z, lowest) ? [e] : [])),
  );
}

function eaveHeights(solid: Solid, rest: number): readonly number[] {
  const all = solid.edges
    .filter(({ role }) => role === 'eave')
    .map(({ ends: [a] }) => (solid.vertices[a]?.[2] ?? 0) + rest)
    .sort((a, b) => a - b);
  return all.filter((z, i) => i === 0 || !isSameLength(z, all[i - 1] as number));
}

/** `Closes within 1/64 in.` */
export const closingSentence = (gap: number, units: Units): string =>
  gap <= NOISE_MM ? 'Closes exactly.' : `Closes within ${showGap(gap, units)}.`;

/** `1/64 in`: a gap rounded up to the next 64th of an inch or tenth of a millimetre. */
export function showGap(gap: number, units: Units): string {
  if (units === 'mm') return `${Number((Math.ceil(gap * 10 - NOISE_MM) / 10).toFixed(1))} mm`;
  const sixtyFourths = Math.ceil((gap / MM_PER_INCH) * 64 - NOISE_MM);
  const whole = Math.floor(sixtyFourths / 64);
  const shared = greatestCommonDivisor(sixtyFourths % 64, 64);
  const fraction = sixtyFourths % 64 === 0 ? '' : `${(sixtyFourths % 64) / shared}/${64 / shared}`;
  return `${[whole || '', fraction].filter((part) => part !== '').join(' ') || 0} in`;
}

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

const belowTable = (by: number, place: Place): Issue => ({
  level: 'warning',
  code: 'roof-below-table',
  path: '',
  numbers: { by },
  message: 'The roof comes down {by} below the table that its body stands on.',
  remedy: 'Make the body higher, or let less of the roof hang down.',
  place,
});

const roofTooSmall = (by: number, place: Place): Issue => ({
  level: 'error',
  code: 'roof-too-small',
  path: '',
  numbers: { by },
  message: 'The body stands {by} out beyond the eave.',
  remedy: 'Make the roof wider, or the body narrower, by twice that.',
  place,
});

const runsInto = ({ side }: Neighbour, index: number, by: number, place: Place): Issue => ({
  level: 'error',
  code: 'roof-meets-neighbour',
  path: `neighbours[${index}]`,
  numbers: { by },
  message: `The roof runs {by} into the neighbour to the ${side}.`,
  remedy: 'Let it stand out less there, or raise it above the neighbour.',
  place,
});
