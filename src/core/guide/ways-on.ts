import type { WorkPlan } from '../fold/approach.ts';
import { planWork } from '../fold/work-plan.ts';
import type { Issue } from '../issue.ts';
import type { MadeLayer, MadeRoof } from '../make-roof.ts';
import type { Piece, Seam } from '../net/net.ts';
import type { Production } from '../pipeline.ts';
import { pieceName } from './joint-words.ts';
import { listed, marked } from './words.ts';

const plans = new WeakMap<NonNullable<MadeRoof['made']>, readonly WorkPlan[]>();

/** How the pieces of each layer of a roof go on: worked out when it is first asked for, once for a roof. */
export function waysOn({ made, spec }: Pick<MadeRoof, 'made' | 'spec'>): readonly WorkPlan[] {
  if (!made) return [];
  const plan = plans.get(made) ?? planWork(made.layers, spec.body, made.fit.rest);
  plans.set(made, plan);
  return plan;
}

/** A piece that meets something on every way to its place. */
export interface TightPiece {
  /** Index into the net's pieces. */
  readonly piece: number;
  /** Seams whose flaps it carries under panels that are on before: indices into the net's seams. */
  readonly seams: readonly number[];
}

/** The pieces of a layer that meet something on every way to their places, in the order of work; a seat, and strips, are not looked at. */
export function tightPieces(roof: MadeRoof, layer: number): readonly TightPiece[] {
  const plan = waysOn(roof)[layer];
  const net = roof.made?.layers[layer]?.net;
  if (!plan || !net) return [];
  return plan.order.flatMap((p) => {
    const approach = plan.approaches[p];
    const piece = net.pieces[p] as Piece;
    if (!approach || approach.isFree || piece.strip) return [];
    const edges = new Set(approach.slips.map((i) => piece.flaps[i]?.edge));
    return [{ piece: p, seams: net.seams.flatMap(({ edge }, s) => (edges.has(edge) ? [s] : [])) }];
  });
}

/** Why a piece does not come straight on, and what helps while it is put on. */
export function tightSentences(layer: MadeLayer, tight: TightPiece): readonly string[] {
  const name = pieceName(layer, tight.piece);
  if (layer.spec.as === 'board')
    return [
      `${name} cannot come straight in between its neighbours.`,
      'Tilt it in while these are only tacked, and close all their edges together.',
    ];
  const own = seamsOf(layer, tight);
  if (own.length === 0)
    return [
      `${name} cannot come straight on: its edges meet what is in place already.`,
      'Bend it gently on its way in, and let it spring back.',
    ];
  return [
    `${name} cannot come straight on: ${flapsUnder(layer, tight)}.`,
    `Bend it gently, ${own.length === 1 ? 'this flap' : 'these flaps'} pressed in, and let it spring back once ${own.length === 1 ? 'it is' : 'they are'} under.`,
    `If the paper will not bend so far, cut ${own.length === 1 ? 'that flap off and tape the seam' : 'these flaps off and tape the seams'} on the inside.`,
  ];
}

const seamsOf = ({ net }: MadeLayer, { seams }: TightPiece): readonly Seam[] => seams.map((s) => net.seams[s] as Seam);

/** More flaps than this are counted, not named. */
const MOST_NAMED = 3;

/** `its flap C has to go under North, which goes on before it`. */
function flapsUnder(layer: MadeLayer, tight: TightPiece): string {
  const seams = seamsOf(layer, tight);
  if (seams.length > MOST_NAMED)
    return `${seams.length} of its flaps have to go under its neighbours, which go on before it`;
  const over = [
    ...new Set(
      seams.flatMap(({ sides }) =>
        sides.flatMap(({ piece }) => (piece === tight.piece ? [] : [pieceName(layer, piece)])),
      ),
    ),
  ];
  const [has, goes] = [seams.length === 1 ? 'has' : 'have', over.length === 1 ? 'goes' : 'go'];
  return `its ${named('flap', seams)} ${has} to go under ${listed(over)}, which ${goes} on before it`;
}

const named = (noun: string, seams: readonly Seam[]): string =>
  marked(
    noun,
    seams.map(({ mark }) => mark),
  );

/**
 * The same production with a note for every piece that meets something on every way to its place. Looking for ways takes longer
 * than making a roof: this is for what is asked for once, not at each change of a measure.
 */
export function withWays(production: Production): Production {
  const found = production.roofs.map((roof, r) =>
    (roof.made?.layers ?? []).flatMap((layer, l) =>
      tightPieces(roof, l).map((tight): Issue => tightNote(layer, tight, l, `roofs[${r}].layers[${l}]`)),
    ),
  );
  return {
    ...production,
    roofs: production.roofs.map((roof, r) => ({ ...roof, issues: [...roof.issues, ...(found[r] ?? [])] })),
    issues: [...production.issues, ...found.flat()],
  };
}

function tightNote(layer: MadeLayer, tight: TightPiece, l: number, path: string): Issue {
  const { solid, net } = layer;
  const [message = '', ...remedy] = tightSentences(layer, tight);
  const faces = (net.pieces[tight.piece] as Piece).panels.flatMap(({ face }) => solid.faces[face]?.id ?? []);
  const edges = seamsOf(layer, tight).flatMap(({ edge }) => solid.edges[edge]?.id ?? []);
  const orTape = tight.seams.length === 0 || layer.spec.as === 'board' ? [] : [tapeInstead(layer, tight)];
  return {
    level: 'note',
    code: 'no-straight-way',
    path,
    message,
    remedy: [...remedy.slice(0, 1), ...orTape].join(' '),
    place: { layer: l, faces, edges },
  };
}

/** Before anything is cut the seam need not have a flap. */
function tapeInstead(layer: MadeLayer, tight: TightPiece): string {
  const own = seamsOf(layer, tight);
  const which = own.length > MOST_NAMED ? 'those seams' : named('seam', own);
  return `Or join ${which} with tape in place of ${own.length === 1 ? 'a flap' : 'flaps'}.`;
}
