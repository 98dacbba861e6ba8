import { boxedRing, ringDepth } from '../../../geometry/convex-parts.ts';
import { at, distanceToSegment, isInside, ringDistance } from '../../../geometry/polygon.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { NOISE_MM } from '../../../tolerance.ts';
import type { NestLayout, NestPlacement, NestProblem, Ring } from '../problem.ts';

/** What is wrong with a layout, in words; by separating axes and distances, not by what the search uses. */
export function nestTroubles({ pieces, sheets }: NestProblem, { placements, leftOut }: NestLayout): readonly string[] {
  const troubles: string[] = [];
  const named = [...placements.map(({ piece }) => piece), ...leftOut].sort((a, b) => a - b);
  if (named.join() !== pieces.map((_, i) => i).join()) troubles.push(`pieces named: ${named.join()}`);
  const onSheet = new Map<string, Ring[]>();
  for (const placement of placements) {
    const { piece, kind, sheet, rotation } = placement;
    const { choices, outline } = pieces[piece]!;
    const turns = choices.find((choice) => choice.kind === kind)?.turns;
    if (!turns) troubles.push(`piece ${piece} may not go on kind ${kind}`);
    else if (turns !== 'any' && !turns.includes(rotation)) troubles.push(`piece ${piece} is turned by ${rotation}`);
    const { count, gap, taken, parts } = sheets[kind]!;
    if (!Number.isInteger(sheet) || sheet < 0 || sheet >= (count ?? Number.POSITIVE_INFINITY))
      troubles.push(`there is no sheet ${sheet} of kind ${kind}`);
    const ring = placedRing(outline, placement);
    const off = Math.min(...parts.map((part) => outsideBy(ring, part)));
    if (off > NOISE_MM) troubles.push(`piece ${piece} leaves its sheet by ${off}`);
    const key = `${kind}/${sheet}`;
    const others = onSheet.get(key) ?? [...(taken[sheet] ?? [])];
    for (const other of others) {
      const depth = ringDepth(boxedRing(other), boxedRing(ring));
      if (depth > NOISE_MM) troubles.push(`piece ${piece} lies ${depth} deep on another`);
      else if (gap > 0 && ringDistance(other, ring) < gap - NOISE_MM) troubles.push(`piece ${piece} is too near`);
    }
    onSheet.set(key, [...others, ring]);
  }
  return troubles;
}

export function placedRing(outline: Ring, { x, y, rotation }: NestPlacement): Ring {
  const [cos, sin] = [Math.cos(rotation), Math.sin(rotation)];
  return outline.map(([px, py]): Vec2 => [cos * px - sin * py + x, sin * px + cos * py + y]);
}

/** How far the ring reaches out of the other, mm: at its points, at the middle of its edges, and where the other's corners lie in it. */
function outsideBy(ring: Ring, usable: Ring): number {
  const distance = (p: Vec2, border: Ring): number =>
    Math.min(...border.map((a, i) => distanceToSegment(p, a, at(border, i + 1))));
  const middle = (a: Vec2, b: Vec2): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const probes = ring.flatMap((p, i) => [p, middle(p, at(ring, i + 1))]);
  const out = probes.map((p) => (isInside(p, usable) ? 0 : distance(p, usable)));
  const corners = usable.map((p) => (isInside(p, ring) ? distance(p, ring) : 0));
  return Math.max(...out, ...corners);
}
