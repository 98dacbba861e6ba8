import type { MadeLayer } from '../make-roof.ts';
import type { Piece, Seam, SeamJoin } from '../net/net.ts';
import type { Units } from '../units/units.ts';
import { bothUnits, listed, marked, plural, runsOfMarks } from './words.ts';

/** What a piece is called in a sentence. */
export const pieceName = ({ net }: MadeLayer, p: number): string => (p < 0 ? 'the roof' : (net.pieces[p]?.title ?? ''));

const joinOrder: readonly SeamJoin[] = ['strip', 'flap', 'tape', 'glue', 'none'];

/** The piece that carries the flap of a seam; null where none does. */
export function carrierOf({ net }: MadeLayer, { edge, sides }: Seam): number | null {
  const carries = (piece: Piece | undefined): boolean =>
    piece !== undefined && !piece.strip && piece.flaps.some((flap) => flap.edge === edge);
  return sides.map(({ piece }) => piece).find((p) => carries(net.pieces[p])) ?? null;
}

/**
 * How seams are joined when pieces go on, join by join: which flaps get glue, what is taped. `now`: the pieces that go on;
 * where seams are a piece's own they are said without names.
 */
export function joinSentences(
  layer: MadeLayer,
  joins: readonly number[],
  now: readonly number[],
  units: Units,
): readonly string[] {
  const seams = joins.map((s) => layer.net.seams[s] as Seam);
  return joinOrder.flatMap((join) => {
    const own = seams.filter((seam) => seam.join === join);
    if (own.length === 0) return [];
    const named = (noun: string): string =>
      marked(
        noun,
        own.map(({ mark }) => mark),
      );
    const one = own.length === 1;
    const length = `${one ? 'It is' : 'Together they are'} ${lengthWords(layer, own, units)} long.`;
    const isOwnSeam = own.every(({ sides: [a, b] }) => a.piece === b.piece);
    if (join === 'none')
      return [`The ${named('seam')} ${one ? 'is' : 'are'} hardly longer than a point: nothing to tape.`];
    if (join === 'tape') return [`Tape the ${named('seam')} on the inside. ${length}`];
    if (join === 'glue')
      return [`Run a thin line of glue along the ${named('edge')}, and press edge to edge until it grabs. ${length}`];
    if (join === 'strip')
      return [
        `Glue half of the ${named('strip')} under the first panel, the fold along its edge. ${length}`,
        'Then glue the second panel to the other half, edge to edge.',
      ];
    if (isOwnSeam)
      return [
        one
          ? `Put glue on the ${named('flap')} and bring it under the panel with the same letter, edge to edge. ${length}`
          : `Glue the ${named('flap')} one after the other, each under the panel with the same letter. ${length}`,
        'Start at the eave and press towards the top.',
      ];
    return flapSentences(layer, own, now, length);
  });
}

/** A flap of what goes on slips under what is there; one that is there is covered. */
function flapSentences(
  layer: MadeLayer,
  seams: readonly Seam[],
  now: readonly number[],
  length: string,
): readonly string[] {
  const slips = seams.filter((seam) => now.includes(carrierOf(layer, seam) ?? -1));
  const covered = seams.filter((seam) => !slips.includes(seam));
  const said = (some: readonly Seam[]): string =>
    marked(
      'flap',
      some.map(({ mark }) => mark),
    );
  const hosts = (some: readonly Seam[]): string => {
    const names = [
      ...new Set(
        some.map(({ sides }) => pieceName(layer, (sides.find(({ piece }) => !now.includes(piece)) ?? sides[1]).piece)),
      ),
    ];
    return names.length > 2 ? 'their neighbours' : listed(names);
  };
  return [
    ...(covered.length > 0
      ? [`Put glue on the ${said(covered)}, and lay the new edges down on them, letter to letter.`]
      : []),
    ...(slips.length > 0
      ? [`Put glue on the ${said(slips)}, and slip ${slips.length === 1 ? 'it' : 'them'} under ${hosts(slips)}.`]
      : []),
    length,
  ];
}

const lengthWords = ({ solid }: MadeLayer, seams: readonly Seam[], units: Units): string =>
  bothUnits(
    seams.reduce((sum, { edge }) => sum + (solid.edges[edge]?.length ?? 0), 0),
    units,
  );

const joinNames: Readonly<Record<SeamJoin, string>> = {
  flap: 'glued flap',
  strip: 'strip inside',
  tape: 'tape inside',
  glue: 'glue, edge to edge',
  none: 'too short to join',
};

/** A table of seams: letters, what they join, how, how long. Seams of one role, join and length share a row. */
export function seamRows(layer: MadeLayer, units: Units): readonly (readonly string[])[] {
  const { net, solid } = layer;
  const groups = new Map<string, Seam[]>();
  for (const seam of net.seams) {
    const edge = solid.edges[seam.edge];
    const key = `${edge?.role} ${seam.join} ${bothUnits(edge?.length ?? 0, units)}`;
    groups.set(key, [...(groups.get(key) ?? []), seam]);
  }
  return [...groups.values()].map((seams) => {
    const [first] = seams as [Seam];
    const edge = solid.edges[first.edge];
    return [
      runsOfMarks(seams.map(({ mark }) => mark)),
      seams.length === 1 ? (edge?.role ?? '') : plural(seams.length, edge?.role ?? 'edge'),
      joinNames[first.join],
      bothUnits(edge?.length ?? 0, units),
    ];
  });
}
