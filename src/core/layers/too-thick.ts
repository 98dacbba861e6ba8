import type { Issue } from '../issue.ts';
import type { Solid } from '../solid/solid.ts';

/** A layer that a roof has no room for: the panel that would vanish, how far it would have to go and how far it can, mm. */
export const tooThick = (solid: Solid, face: number, most: number, by: number): Issue => ({
  level: 'error',
  code: 'layer-too-thick',
  path: '',
  numbers: { found: Math.abs(by), most },
  message: `The layers are too thick for this roof: ${by < 0 ? 'inside' : 'outside'} by {found}, the panel ${solid.faces[face]?.title.toLowerCase()} would vanish or run through another. At most {most} is possible.`,
  remedy: 'Take thinner stock, fewer layers, or a larger roof.',
  place: { faces: [solid.faces[face]?.id ?? ''] },
});
