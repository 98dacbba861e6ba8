import { compose2, inverse2, type Rigid2 } from '../geometry/rigid2.ts';
import type { CutGraph, CutLink } from './cut-graph.ts';
import { across, doCover, type Laying, laidNode } from './lay-nodes.ts';

/**
 * Tells of one change at a net after another whether panels would cover each other: what goes elsewhere is held against what it
 * comes to. A change joins a `link`, and cuts a fold of a piece that the link is on; null: it joins two pieces and cuts none.
 */
export function coverTrial(
  graph: CutGraph,
  { pieceOf, parent, by, depth, motions }: Laying,
): (link: number, cut: number | null) => boolean {
  const known: ReturnType<typeof laidNode>[] = [];
  const laidAt = (node: number): ReturnType<typeof laidNode> => {
    known[node] ??= laidNode(graph, node, motions[node] as Rigid2);
    return known[node];
  };
  const isUnder = (node: number, top: number): boolean => {
    let up = node;
    while ((depth[up] as number) > (depth[top] as number)) up = parent[up] as number;
    return up === top;
  };
  return (link, cut) => {
    const joint = graph.links[link] as CutLink;
    const [a, b] = joint.nodes;
    const top = cut === null ? undefined : (graph.links[cut] as CutLink).nodes.find((node) => by[node] === cut);
    /** The piece of a node, or what is cut off it. */
    const partOf = (node: number): number =>
      top !== undefined && pieceOf[node] === pieceOf[top] && isUnder(node, top) ? -1 : (pieceOf[node] as number);
    const parts = graph.nodes.map((_, node) => partOf(node));
    const members = (node: number): number[] => [...parts.keys()].filter((other) => parts[other] === parts[node]);
    const [own, others] = [members(a), members(b)];
    const [still, going, from, to] = own.length < others.length ? [others, own, b, a] : [own, others, a, b];
    const [, place] = across(joint, from, motions[from] as Rigid2);
    const move = compose2(place, inverse2(motions[to] as Rigid2));
    return going.some((node) => {
      const moved = laidNode(graph, node, compose2(move, motions[node] as Rigid2));
      return still.some((other) => doCover(graph, moved, laidAt(other), other === from && node === to));
    });
  };
}
