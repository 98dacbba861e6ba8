import type { EdgeRole, Solid } from '../../core/solid/solid.ts';

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

/** What an edge is called: `Hip, South to East`, `Eave, South`. */
export const edgeTitle = ({ edges, faces }: Solid, index: number): string => {
  const edge = edges[index];
  if (edge === undefined) return '';
  const sides = edge.faces.map((face) => faces[face]?.title ?? '');
  return `${roles[edge.role]}, ${sides.join(' to ')}`;
};
