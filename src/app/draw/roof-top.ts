import type { Solid } from '../../core/solid/solid.ts';
import { NOISE_MM } from '../../core/tolerance.ts';

/** What a roof comes to at its top: the plainest thing by which an eye tells kinds apart. */
export type RoofTop = 'peak' | 'ridge' | 'other';

/** A peak: one highest point. A ridge: two slopes meet in a level line at the top. Other: one slope, flat, open, a valley. */
export const roofTop = ({ vertices, edges }: Solid): RoofTop => {
  const top = Math.max(...vertices.map(([, , z]) => z));
  const isHighest = (vertex: number): boolean => (vertices[vertex]?.[2] ?? 0) > top - NOISE_MM;
  if (vertices.filter((_, i) => isHighest(i)).length === 1) return 'peak';
  return edges.some(({ role, ends }) => role === 'ridge' && ends.every(isHighest)) ? 'ridge' : 'other';
};
