import type { Issue, Place } from '../issue.ts';
import type { FlapSpec } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import type { Solid } from '../solid/solid.ts';
import { isAtMost } from '../tolerance.ts';
import type { Piece, SeamJoin } from './net.ts';
import type { SeamFlap } from './seam-flap.ts';
import { SAGITTA } from './teeth.ts';

/** How a seam came to be joined. */
export interface SeamOutcome {
  readonly join: SeamJoin;
  /** How far its flap reaches, mm; missing: it has none. */
  readonly depth: number | undefined;
  /** Its flaps as they were trimmed under their mates. */
  readonly trimmed: readonly SeamFlap[];
  /** That it has no flap is asked for. */
  readonly isLeftOut: boolean;
}

/** What there is to say of a seam: it has no flap, or a narrow one. */
export function seamIssues(solid: Solid, edge: number, outcome: SeamOutcome, spec: FlapSpec): readonly Issue[] {
  const { join, depth, trimmed, isLeftOut } = outcome;
  if (depth !== undefined)
    return isAtMost(Math.min(spec.width, reachOf(trimmed)), depth) ? [] : [narrowFlap(solid, edge, spec.width, depth)];
  if (join === 'none') return [tooShort(solid, edge)];
  return [join === 'strip' ? joinedByStrip(solid, edge, isLeftOut, spec) : needsTape(solid, edge, isLeftOut, spec)];
}

/** How far a seam's flap was meant to reach: the teeth of a tight curve are shorter than the width asked for, and bulge at their base. */
const reachOf = (flaps: readonly SeamFlap[]): number =>
  Math.min(...flaps.map(({ meant, edges }) => (edges > 1 ? meant - 2 * SAGITTA : meant)));

export const placeOf = (solid: Solid, edge: number): Place => ({
  edges: [(solid.edges[edge] as Solid['edges'][number]).id],
});

export const overSheet = (solid: Solid, { title, panels, width, height }: Piece): Issue => ({
  level: 'warning',
  code: 'piece-over-sheet',
  path: 'pieces',
  numbers: { width, height },
  place: { faces: panels.map(({ face }) => (solid.faces[face] as Solid['faces'][number]).id) },
  message: `${title} is {width} wide and {height} high, larger than any sheet of this layer, and cannot be cut in smaller pieces at its edges.`,
  remedy: 'Take a larger sheet for this layer, or a smaller roof.',
});

const needsTape = (solid: Solid, edge: number, isLeftOut: boolean, { least }: FlapSpec): Issue => ({
  level: 'note',
  code: isLeftOut ? 'seam-without-flap' : 'flap-too-small',
  path: '',
  numbers: { length: solid.edges[edge]?.length ?? 0, least },
  place: placeOf(solid, edge),
  message: isLeftOut
    ? `The ${edgeName(solid, edge)} has no flap: join its {length} with tape.`
    : `The ${edgeName(solid, edge)} leaves less than {least} of flap: join its {length} with tape.`,
});

const joinedByStrip = (solid: Solid, edge: number, isLeftOut: boolean, { least }: FlapSpec): Issue => ({
  level: 'note',
  code: 'seam-strip',
  path: '',
  numbers: { length: solid.edges[edge]?.length ?? 0, least },
  place: placeOf(solid, edge),
  message: isLeftOut
    ? `The ${edgeName(solid, edge)} has no flap: a strip of its own joins it.`
    : `The ${edgeName(solid, edge)} has no flap of {least} or more: a strip of its own joins it.`,
});

export const plainUnproven = (plain: number): Issue => ({
  level: 'note',
  code: 'plain-unproven',
  path: '',
  numbers: { plainCount: plain },
  message:
    'With so many panels not every choice was tried: {plainCount} pieces carry no flap, and perhaps one more could do without.',
});

const narrowFlap = (solid: Solid, edge: number, wanted: number, found: number): Issue => ({
  level: 'note',
  code: 'flap-narrow',
  path: '',
  numbers: { wanted, found },
  place: placeOf(solid, edge),
  message: `The flap at the ${edgeName(solid, edge)} is {found} wide instead of {wanted}: no more fits under the other panel.`,
});

const tooShort = (solid: Solid, edge: number): Issue => ({
  level: 'note',
  code: 'seam-short',
  path: '',
  numbers: { length: solid.edges[edge]?.length ?? 0 },
  place: placeOf(solid, edge),
  message: `The ${edgeName(solid, edge)} is only {length} long: nothing joins it, its panels hold by their other seams.`,
});
