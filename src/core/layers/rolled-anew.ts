import { add3, distance3, dot3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { type FaceFrame, faceFrame, rulingOf } from '../solid/face-frame.ts';
import type { OnRuling, Roll, RolledSurface } from '../solid/roll.ts';
import type { Face, Solid } from '../solid/solid.ts';
import { isPositive } from '../tolerance.ts';

/** Where the straight lines of a cone meet, whether the panel reaches there or not; null of a cylinder. */
export const peakOf = ({ origin, y }: FaceFrame, surface: RolledSurface): Vec3 | null =>
  surface.form === 'cone' ? add3(origin, scale3(y, surface.apex)) : null;

/** A roll whose corners have other places in their loop; rulings that have come together are one. */
function movedPlaces(roll: Roll, places: readonly number[]): Roll {
  const place = (position: number): number => places[position] ?? position;
  const rulings = roll.rulings.map(([high, low]) => [place(high), place(low)] as const);
  return {
    ...roll,
    rulings: rulings.filter(([high, low], i) => i === 0 || high !== rulings[i - 1]?.[0] || low !== rulings[i - 1]?.[1]),
    corners: [...new Set(roll.corners.map(place))],
  };
}

/**
 * How a rolled face lies flat once it has moved to these corners, and how far its samples keep to the curve; null: it has no radius
 * left. `places`: for each corner that it had its place among them.
 */
export function rolledAnew(
  solid: Solid,
  face: number,
  points: readonly Vec3[],
  places: readonly number[],
  by: number,
): Roll | null {
  const roll = movedPlaces((solid.faces[face] as Face).roll as Roll, places);
  const { surface } = roll;
  const frame = faceFrame(solid, face);
  const on = points.map((p) => rulingOf(frame, surface, p));
  const azimuths = roll.rulings.map(([, low]) => (on[low] as OnRuling).azimuth);
  const step = Math.max(...azimuths.slice(1).map((azimuth, i) => Math.abs(azimuth - (azimuths[i] as number))));
  const deviationOf = (radius: number): number => radius * (1 - Math.cos(step / 2));
  if (surface.form === 'cylinder') {
    const radius = surface.radius + by;
    if (!isPositive(radius)) return null;
    const flat = on.map(({ azimuth, reach }): Vec2 => {
      const across = azimuth * radius;
      return surface.rulings === 'x' ? [reach, across] : [across, reach];
    });
    return { ...roll, surface: { ...surface, radius }, flat, deviation: deviationOf(radius) };
  }
  const { sine } = surface;
  // The axis goes up from the peak; along it the peak moves by the offset over the sine.
  const cosine = Math.sqrt((1 - sine) * (1 + sine));
  const axis = add3(scale3(frame.y, cosine), scale3(frame.normal, sine));
  const peak = add3(peakOf(frame, surface) as Vec3, scale3(axis, by / sine));
  const slants = points.map((p) => distance3(p, peak));
  // Nothing of a cone is left once its eave has passed its peak.
  if (points.some((p, i) => isPositive(slants[i] as number) && !isPositive(-dot3(axis, sub3(p, peak))))) return null;
  const longest = Math.max(...slants);
  const flat = on.map(({ azimuth }, i): Vec2 => {
    const slant = slants[i] as number;
    // At the peak every direction is the same point.
    const angle = slant === 0 ? 0 : azimuth * sine;
    return [slant * Math.sin(angle) + 0, longest - slant * Math.cos(angle)];
  });
  return { ...roll, surface: { ...surface, apex: longest }, flat, deviation: deviationOf(longest * sine) };
}
