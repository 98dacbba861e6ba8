import type { Issue } from '../issue.ts';
import { LEAST_THICKNESS_THAT_COUNTS } from '../project/limits.ts';
import type { Solid } from '../solid/solid.ts';
import { ROLL_MM } from '../tolerance.ts';

/** A layer that a roof has no room for: the panel that would vanish, how far it would have to go and how far it can, mm. */
export function tooThick(solid: Solid, face: number, most: number, by: number): Issue {
  const { id, title } = solid.faces[face] as Solid['faces'][number];
  const found = `${by < 0 ? 'inside' : 'outside'} by {found}, the panel ${title.toLowerCase()} would vanish or run through another`;
  const issue = { level: 'error', code: 'layer-too-thick', path: '', place: { faces: [id] } } as const;
  // Less than any paper is thick is nothing that could be asked for.
  if (most < ROLL_MM)
    return {
      ...issue,
      numbers: { found: Math.abs(by), most, thin: LEAST_THICKNESS_THAT_COUNTS },
      message: `This roof takes no layer that has a thickness: ${found}, as it would with any.`,
      remedy: 'Take nothing but paper under {thin}, which counts as having no thickness, or change the shape a little.',
    };
  return {
    ...issue,
    numbers: { found: Math.abs(by), most },
    message: `The layers are too thick for this roof: ${found}. At most {most} is possible.`,
    remedy: 'Take thinner stock, fewer layers, or a larger roof.',
  };
}

const HALVINGS = 12;

/** How far something can go that cannot go all of a way, mm, found by halving. */
export function byHalving(way: number, isSound: (far: number) => boolean): number {
  let [low, high] = [0, way];
  for (let round = 0; round < HALVINGS && high > 0; round++) {
    const middle = (low + high) / 2;
    if (isSound(middle)) low = middle;
    else high = middle;
  }
  return low;
}
