import type { MadeLayer } from '../make-roof.ts';
import type { Piece } from '../net/net.ts';
import type { LayerKind } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { isSameLength } from '../tolerance.ts';
import { listed } from './words.ts';

interface Opening {
  /** Nothing of the layer is in place yet. */
  readonly isFirst: boolean;
  readonly isMany: boolean;
  readonly hasBody: boolean;
  /** The layer is one piece. */
  readonly isOnly: boolean;
}

/** How pieces of each sort go on, up to their seams. */
export const openings: Readonly<Record<LayerKind | 'seat', (names: string, about: Opening) => readonly string[]>> = {
  board: (names, { isFirst, isMany, hasBody }) => [
    ...(isFirst && hasBody ? ['The body is your form: build on it, but glue nothing to it yet.'] : []),
    `Set ${names} in place, the lower ${isMany ? 'edges' : 'edge'} level with the eave.`,
  ],
  shell: (names, { isFirst, isMany, hasBody, isOnly }) =>
    isOnly
      ? [`Set ${inSentence(names)} ${hasBody ? 'over the body' : 'on the table'} and look at it from all sides.`]
      : [
          ...(isFirst && hasBody ? ['The body is your form: build on it, but glue nothing to it yet.'] : []),
          `Stand ${names} in place${isFirst ? ' and hold with a scrap of low-tack tape' : ''}, the lower ${isMany ? 'edges' : 'edge'} level with the eave.`,
        ],
  cover: (names, { isMany, isFirst, isOnly }) => [
    `Spread a thin, even coat of glue on the back of ${inSentence(names)}${isMany ? ', one at a time' : ''}.`,
    isOnly
      ? 'Lower it over from straight above, flush with the eave, and smooth it down side by side.'
      : `Lay ${isMany ? 'each' : 'it'} in its place, flush with the eave, and smooth it from the middle outwards.`,
    ...(isFirst && isMany ? ['Opposite sides first: what is square stays square.'] : []),
  ],
  seat: (names) => [
    'Turn the roof over.',
    `Put glue on the upper flaps of ${inSentence(names)} and stand it on the lines inside the roof, letter to letter.`,
  ],
};

const inSentence = (names: string): string => (names === 'Whole roof' ? 'the whole roof' : names);

/** What must be true once pieces are on: points that meet at the top without a seam between them, and at last the eave. */
export function checkAfter(
  layer: MadeLayer,
  before: readonly number[],
  now: readonly number[],
  isLast: boolean,
): string | undefined {
  if (isLast && layer.net.pieces.length > 1) return 'Look along the eave: it is one level line, and no flap shows.';
  return pointsMeet(layer, [...before, ...now], now);
}

function pointsMeet({ net, solid }: MadeLayer, on: readonly number[], now: readonly number[]): string | undefined {
  const topsOf = (p: number): readonly number[] => topPoints(solid, net.pieces[p] as Piece);
  const joined = (p: number, q: number): boolean =>
    net.seams.some(({ sides: [a, b] }) => (a.piece === p && b.piece === q) || (a.piece === q && b.piece === p));
  const meeting = on.filter((p) =>
    on.some(
      (q) =>
        q !== p &&
        (now.includes(p) || now.includes(q)) &&
        !joined(p, q) &&
        topsOf(p).some((v) => topsOf(q).includes(v)),
    ),
  );
  if (meeting.length < 2) return undefined;
  if (meeting.length > 2) return 'The points must all meet at one spot at the top.';
  return `The points of ${listed(meeting.map((p) => net.pieces[p]?.title ?? ''))} must meet at the top.`;
}

/** The highest corner of a piece, where it comes to a point there. */
function topPoints({ vertices, faces }: Solid, { panels }: Piece): readonly number[] {
  const corners = [...new Set(panels.flatMap(({ face }) => faces[face]?.loop ?? []))];
  const top = Math.max(...corners.map((v) => vertices[v]?.[2] ?? 0));
  const highest = corners.filter((v) => isSameLength(vertices[v]?.[2] ?? 0, top));
  return highest.length === 1 ? highest : [];
}
