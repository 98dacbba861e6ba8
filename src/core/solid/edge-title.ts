import type { EdgeRole, Solid } from './solid.ts';

const roles: Readonly<Record<EdgeRole, string>> = {
  eave: 'Eave',
  ridge: 'Ridge',
  hip: 'Hip',
  valley: 'Valley',
  verge: 'Verge',
  break: 'Break',
  abutment: 'Wall head',
  rim: 'Rim',
  foot: 'Foot',
};

/** What an edge is called by itself: `Hip, South to East`, `Eave, South`. */
export const edgeTitle = ({ edges, faces }: Pick<Solid, 'edges' | 'faces'>, index: number): string => {
  const edge = edges[index];
  if (edge === undefined) return '';
  const sides = edge.faces.map((face) => faces[face]?.title ?? '');
  return `${roles[edge.role]}, ${sides.join(' to ')}`;
};

/** An edge within a sentence: `hip between south and east`, `eave of south`. */
export function edgeName({ edges, faces }: Pick<Solid, 'edges' | 'faces'>, index: number): string {
  const edge = edges[index];
  if (edge === undefined) return '';
  const sides = edge.faces.map((face) => lowered(faces[face]?.title ?? ''));
  return `${roles[edge.role].toLowerCase()} ${sides.length > 1 ? `between ${sides.join(' and ')}` : `of ${sides.join()}`}`;
}

const lowered = (title: string): string => `${title.charAt(0).toLowerCase()}${title.slice(1)}`;
