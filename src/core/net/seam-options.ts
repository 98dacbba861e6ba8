import type { Issue } from '../issue.ts';
import type { SeamChoice, SeamChoices } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { buildNet, type NetOptions } from './build-net.ts';
import { readByHand } from './by-hand.ts';
import { flattenSolid } from './unfold.ts';

/** One way to join an edge by hand. */
export interface SeamOption {
  readonly choice: SeamChoice;
  /** Why it cannot be, its figures still to be spelled; null where it can. */
  readonly why: Issue | null;
}

/**
 * Every way to join one edge (a fold, a flap on either of its panels, tape, a strip) beside what is chosen for the others, and
 * of those that cannot be, why. Of a flap or strip that is left too narrow the net itself tells. `edge`: its id.
 */
export function seamOptions(solid: Solid, layer: NetOptions, edge: string): readonly SeamOption[] {
  const flatSolid = flattenSolid(solid);
  const index = solid.edges.findIndex(({ id }) => id === edge);
  const sides = (solid.edges[index]?.faces ?? []).map((f) => solid.faces[f]?.id);
  const choices: readonly SeamChoice[] = [
    { join: 'fold' },
    ...sides.map((on): SeamChoice => ({ join: 'flap', on })),
    { join: 'strip' },
    { join: 'tape' },
  ];
  return choices.map((choice): SeamOption => {
    const seams = withChoice(layer.seams, edge, choice);
    const refused = readByHand(flatSolid, seams).issues.find(({ path }) => isOf(path, edge));
    if (refused || choice.join === 'fold' || choice.join === 'tape') return { choice, why: refused ?? null };
    const { net, issues } = buildNet(solid, { ...layer, seams });
    const isJoined = net.seams.some((seam) => seam.edge === index && seam.join === choice.join);
    const told = issues.find(({ code, place }) => TOO_SMALL.has(code) && place?.edges?.includes(edge));
    return { choice, why: isJoined ? null : (told ?? null) };
  });
}

/** What a net says of a seam that did not get what was asked for. */
const TOO_SMALL: ReadonlySet<string> = new Set(['flap-too-small', 'seam-without-flap', 'seam-strip', 'seam-short']);

/** The choices of a layer with one of them changed; it comes last, so that the others hold. Null: chosen no more. */
export function withChoice(seams: SeamChoices = {}, edge: string, choice: SeamChoice | null): SeamChoices {
  const others = Object.entries(seams).filter(([id]) => id !== edge);
  return Object.fromEntries([...others, ...(choice ? [[edge, choice] as const] : [])]);
}

const isOf = (path: string, edge: string): boolean => path === `seams.${edge}` || path.startsWith(`seams.${edge}.`);
