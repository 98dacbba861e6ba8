import { at } from '../geometry/polygon.ts';
import { distance2, distance3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import type { Net } from '../net/net.ts';
import type { Body } from '../project/project.ts';
import { edgesOfFaces, faceFrame, flattenFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import { formatLength, MM_PER_INCH, type Ruler, roundToRuler, type Units } from '../units/units.ts';
import { eaveOutline, overhangs, restHeight } from './rest.ts';

/** How well the net closes and sits on the body. Lengths in mm. */
export interface Fit {
  /** Plan distance from the body's walls out to the eave; null without a body. */
  readonly overhang: { readonly min: number; readonly max: number } | null;
  /** Largest difference between the two sides of a seam once every mark is rounded to the ruler. */
  readonly seamMismatch: number;
  /** Largest gap between panels at a top point once every mark is rounded to the ruler. */
  readonly peakGap: number;
  /** Height of the eave plane over the table when the roof rests on its body; 0 without one. */
  readonly rest: number;
  /** As `Closes within 1/64 in.` */
  readonly sentence: string;
}

export interface FitOptions {
  readonly body: Body | null;
  readonly ruler: Ruler;
  readonly units: Units;
}

/** How the roof of these layers' nets closes when it is set out with the ruler, and how it sits on its body. */
export function fitRoof(
  solid: Solid,
  nets: readonly { readonly solid: Solid; readonly net: Net }[],
  { body, ruler, units }: FitOptions,
): { readonly fit: Fit; readonly issues: readonly Issue[] } {
  const closings = nets.map(({ solid: own, net }) => closing(own, net, ruler));
  const seamMismatch = Math.max(0, ...closings.map((c) => c.seamMismatch));
  const peakGap = Math.max(0, ...closings.map((c) => c.peakGap));
  const out = body ? overhangs(eaveOutline(solid), body) : [];
  const overhang = body ? { min: Math.min(...out), max: Math.max(...out) } : null;
  const fit: Fit = {
    overhang,
    seamMismatch,
    peakGap,
    rest: body ? restHeight(solid, body) : 0,
    sentence: closingSentence(Math.max(seamMismatch, peakGap), units),
  };
  return { fit, issues: overhang && overhang.min < -NOISE_MM ? [roofTooSmall(-overhang.min)] : [] };
}

/** `Closes within 1/64 in.`: the gap rounded up to the next 64th of an inch or tenth of a millimetre. */
export function closingSentence(gap: number, units: Units): string {
  if (gap <= NOISE_MM) return 'Closes exactly.';
  if (units === 'mm') return `Closes within ${Number((Math.ceil(gap * 10 - NOISE_MM) / 10).toFixed(1))} mm.`;
  const sixtyFourths = Math.ceil((gap / MM_PER_INCH) * 64 - NOISE_MM);
  const shared = greatestCommonDivisor(sixtyFourths, 64);
  const [top, bottom] = [sixtyFourths / shared, 64 / shared];
  return `Closes within ${bottom === 1 ? top : `${top}/${bottom}`} in.`;
}

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));

/**
 * A maker marks every corner of a panel by its distance along the eave and its height over it, each rounded to the ruler.
 * The two sides of a seam then differ in length, and at a shared top point the panels, laid in their planes with the middle
 * of each eave in place, miss each other by a gap.
 */
function closing(solid: Solid, net: Net, ruler: Ruler): { seamMismatch: number; peakGap: number } {
  const edgesOf = edgesOfFaces(solid);
  const marked = solid.faces.map((_, f) => markedPanel(solid, f, ruler));
  const sideLength = (f: number, edge: number): number | null => {
    const i = edgesOf[f]?.indexOf(edge) ?? -1;
    return i < 0 ? null : distance2(at(marked[f] as Vec2[], i), at(marked[f] as Vec2[], i + 1));
  };
  const mismatches = net.seams.map(({ edge }) => {
    const [a, b] = (solid.edges[edge]?.faces ?? []).map((f) => sideLength(f, edge));
    return typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) : 0;
  });

  const meeting = new Map<number, Vec3[]>();
  solid.faces.forEach((face, f) => {
    const frame = faceFrame(solid, f);
    face.loop.forEach((v, i) => {
      if ((solid.vertices[v]?.[2] ?? 0) <= NOISE_MM) return;
      const [x, y] = at(marked[f] as Vec2[], i);
      const point = ([0, 1, 2] as const).map(
        (k) => frame.origin[k] + frame.x[k] * x + frame.y[k] * y,
      ) as unknown as Vec3;
      meeting.set(v, [...(meeting.get(v) ?? []), point]);
    });
  });
  const gaps = [...meeting.values()].flatMap((points) =>
    points.flatMap((p, i) => points.slice(0, i).map((q) => distance3(p, q))),
  );
  return { seamMismatch: Math.max(0, ...mismatches), peakGap: Math.max(0, ...gaps) };
}

/** A panel as set out with the ruler, in the face's own frame, the middle of its base where it should be. */
function markedPanel(solid: Solid, face: number, ruler: Ruler): Vec2[] {
  const flat = flattenFace(solid, face);
  const left = Math.min(...flat.map((p) => p[0]));
  const right = Math.max(...flat.map((p) => p[0]));
  const bottom = Math.min(...flat.map((p) => p[1]));
  const mark = (mm: number): number => roundToRuler(mm, ruler).mark;
  const shift = (right - left - mark(right - left)) / 2;
  return flat.map(([x, y]) => [left + shift + mark(x - left), bottom + mark(y - bottom)]);
}

/** How well the roof closes and overhangs, in one or two plain sentences. */
export function describeFit({ overhang, sentence }: Fit, units: Units): string {
  if (!overhang) return sentence;
  const [min, max] = [formatLength(overhang.min, { units }), formatLength(overhang.max, { units })];
  if (overhang.max < NOISE_MM && overhang.min > -NOISE_MM) return `${sentence} Flush with the body.`;
  return `${sentence} ${min === max ? `Overhangs the body by ${min} all round.` : `Overhangs the body by ${min} to ${max}.`}`;
}

const roofTooSmall = (by: number): Issue => ({
  level: 'error',
  code: 'roof-too-small',
  path: '',
  numbers: { by },
  message: 'The body stands {by} out beyond the eave.',
  remedy: 'Make the roof wider, or the body narrower, by twice that.',
});
