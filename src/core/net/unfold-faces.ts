import { type CutGraph, cutGraph, type GraphOptions } from './cut-graph.ts';
import { type SearchOptions, searchCuts } from './search-cuts.ts';
import { type FlatSolid, type Unfolded, unfoldAlong } from './unfold.ts';

/** Least width of a neck where nothing is said, mm. */
export const LEAST_NECK = 8;

/** How pieces are searched for. */
export type CutOptions = GraphOptions & Partial<SearchOptions>;

/** Lays connected faces flat in as few pieces as the search finds, none of their panels covering another. */
export function unfoldFaces(
  flatSolid: FlatSolid,
  faces: readonly number[],
  options: CutOptions = {},
): readonly Unfolded[] {
  const forced = (options.clusters ?? []).flatMap(({ folds }) => folds);
  if (faces.length === 1) return unfoldAlong(flatSolid, faces, new Set());
  const graph = cutGraph(flatSolid, faces, options);
  return unfoldAlong(flatSolid, faces, new Set([...forced, ...joinedEdges(graph, searchJoined(graph, options))]));
}

const searchJoined = (graph: CutGraph, { neck = LEAST_NECK, seed = 1, rounds, fits }: CutOptions): Uint8Array =>
  searchCuts(graph, { neck, seed, ...(rounds === undefined ? {} : { rounds }), ...(fits ? { fits } : {}) }).joined;

export const joinedEdges = ({ links }: CutGraph, joined: Uint8Array): number[] =>
  links.flatMap(({ edge }, l) => (joined[l] ? [edge] : []));
