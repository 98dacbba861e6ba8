import { cutLayers } from '../cut-layers.ts';
import { workOrder } from '../fold/work-order.ts';
import { pathLength } from '../geometry/polygon.ts';
import type { MadeLayer, MadeRoof } from '../make-roof.ts';
import { type Piece, type Seam, scoredLines } from '../net/net.ts';
import type { Production } from '../pipeline.ts';
import type { CutRow } from './cut-list.ts';
import type { GuidePicture, GuideStep, Moment, StepWork } from './guide-data.ts';
import { joinSentences, pieceName } from './joint-words.ts';
import { viewOf } from './moments.ts';
import { checkAfter, openings } from './put-on-words.ts';
import { tightPieces, tightSentences } from './ways-on.ts';
import { bothUnits, fewOrCount, listed, marked, plural } from './words.ts';
import { type AssemblyStep, assemblySteps } from './work-steps.ts';

/** One layer of one roof while its steps are written. */
interface Bench {
  readonly production: Production;
  readonly roof: MadeRoof;
  readonly roofIndex: number;
  readonly layer: MadeLayer;
  readonly layerIndex: number;
  readonly isSeat: boolean;
  readonly rows: readonly CutRow[];
}

type Draft = Omit<GuideStep, 'id' | 'layer'>;

/** Every step from the marked sheet to the joined layer. `rows`: the whole cut list. */
export function layerSteps(
  production: Production,
  roofIndex: number,
  layerIndex: number,
  rows: readonly CutRow[],
): readonly GuideStep[] {
  const roof = production.roofs[roofIndex] as MadeRoof;
  const layer = cutLayers(roof)[layerIndex];
  if (!layer || !roof.made) return [];
  const isSeat = layerIndex >= roof.made.layers.length;
  const bench: Bench = {
    production,
    roof,
    roofIndex,
    layer,
    layerIndex,
    isSeat,
    rows: rows.filter((row) => row.roof === roofIndex && row.layer === layerIndex),
  };
  const assembly = assemblySteps(layer.solid, layer.net, workOrder(layer.solid, layer.net));
  const drafts = [...preparing(bench), ...dryFit(bench), ...assembled(bench, assembly)];
  return drafts.map((draft, i) => ({ ...draft, id: `${roof.spec.id}-${layerIndex}-${i + 1}`, layer: layerIndex }));
}

const all = ({ net }: MadeLayer): readonly number[] => net.pieces.map((_, p) => p);

const draft = (work: StepWork, pieces: readonly number[], sentences: readonly string[]): Draft => ({
  work,
  pieces,
  joins: [],
  sentences,
});

const copiesOf = ({ roof }: Bench): string =>
  roof.spec.copies === 1
    ? ''
    : ` Do it for ${roof.spec.copies === 2 ? 'both' : `all ${roof.spec.copies}`} copies before you go on.`;

/** Score, cut, colour and fold: each operation for all pieces at once. */
function preparing(bench: Bench): readonly Draft[] {
  const { layer, production, roof } = bench;
  const { units } = production.project;
  const pieces = all(layer);
  const lines = layer.net.pieces.flatMap(scoredLines);
  const many = copiesOf(bench);
  const keys = bench.rows.map(({ key }) => String(key));
  const said = keys.length > 2 ? `${keys[0]} to ${keys.at(-1)}` : listed(keys);
  const steps: Draft[] = [];
  if (lines.length > 0) {
    const { copies } = roof.spec;
    const count = (kind: 'mountain' | 'valley'): number => copies * lines.filter((line) => line.kind === kind).length;
    const length = copies * lines.reduce((sum, { points }) => sum + pathLength(points), 0);
    const kinds = [
      ...(count('mountain') > 0 ? [plural(count('mountain'), 'mountain fold')] : []),
      ...(count('valley') > 0 ? [plural(count('valley'), 'valley fold')] : []),
    ];
    steps.push(
      draft('score', pieces, [
        `Score every fold line along a metal ruler, before any cutting: ${listed(kinds)}, ${bothUnits(length, units)} in all.`,
        'Press, do not cut through: one light pass on paper, two on card.',
        ...(many ? [many.trim()] : []),
      ]),
    );
  }
  const total = bench.rows.reduce((sum, { count }) => sum + count, 0);
  const hasFlaps = layer.net.pieces.some(({ flaps, strip }) => flaps.length > 0 && !strip);
  const strips = layer.net.seams.filter(({ join }) => join === 'strip');
  steps.push(
    draft('cut', pieces, [
      `Cut out ${plural(total, 'piece')}: ${keys.length === 1 ? 'number' : 'numbers'} ${said} of the cut list.`,
      layer.spec.as === 'board'
        ? `Cut the board (${bothUnits(layer.thickness, units)} thick) in several light passes; where the page prints a tilt, tilt the blade so far.`
        : 'Cut inside corners first, and from each corner outwards.',
      ...(hasFlaps ? ['Trim the flaps at their slanted ends as drawn: then none shows at the eave or the peak.'] : []),
      ...(strips.length > 0
        ? [
            `Cut the ${marked(
              'strip',
              strips.map(({ mark }) => mark),
            )} a little too long. Score each along its middle, lay it over its edge, mark both ends there, and trim it to the marks.`,
          ]
        : []),
    ]),
  );
  if (!bench.isSeat && bench.layerIndex === cutLayers(roof).length - 1 - (roof.made?.seat ? 1 : 0))
    steps.push(
      draft('colour', pieces, [
        'If you like: run a marker of the paper’s colour along every cut edge. Raw edges then do not show at hips and eaves.',
      ]),
    );
  if (lines.length > 0 || layer.net.pieces.some(({ rulings }) => rulings.length > 0))
    steps.push({ ...draft('fold', pieces, foldSentences(layer)), ...foldPicture(bench) });
  return steps;
}

const foldSentences = ({ net }: MadeLayer): readonly string[] => {
  const hasFlaps = net.pieces.some(({ flaps, hems }) => flaps.length + hems.length > 0);
  const hasFolds = net.pieces.some(({ folds }) => folds.some(({ angle }) => angle > 0));
  return [
    ...(net.pieces.some(({ rulings }) => rulings.length > 0)
      ? ['Draw each round panel over the edge of the table, printed side up, until it keeps a curve by itself.']
      : []),
    ...(hasFlaps ? ['Fold all flaps first.'] : []),
    ...(hasFolds ? [`${hasFlaps ? 'Then fold' : 'Fold'} the lines between the panels.`] : []),
    ...(hasFlaps || hasFolds ? ['Fold each line once right over, then let it spring back.'] : []),
  ];
};

function foldPicture({ layer, roofIndex, layerIndex }: Bench): { readonly picture?: GuidePicture } {
  const weight = ({ folds, flaps, rulings, strip }: Piece): number =>
    strip ? 0 : 4 * folds.length + flaps.length + (rulings.length > 0 ? 1 : 0);
  const piece = all(layer).reduce((best, p) =>
    weight(layer.net.pieces[p] as Piece) > weight(layer.net.pieces[best] as Piece) ? p : best,
  );
  if (weight(layer.net.pieces[piece] as Piece) === 0) return {};
  return {
    picture: {
      moment: { kind: 'folding', roof: roofIndex, layer: layerIndex, piece },
      alt: `${pieceName(layer, piece)}, its flaps turned and its folds half way.`,
    },
  };
}

function dryFit({ layer, isSeat }: Bench): readonly Draft[] {
  if (isSeat || layer.net.seams.length === 0) return [];
  return [
    {
      ...draft('dry-fit', all(layer), [
        'Dry fit before any glue: put the pieces together, letter to letter, and hold them with your fingers or low-tack tape.',
      ]),
      check:
        'Every seam closes, and the eave is level all round. If not, look for an edge that was cut or folded beside its line.',
    },
  ];
}

function assembled(bench: Bench, steps: readonly AssemblyStep[]): readonly Draft[] {
  const on: number[] = [];
  return steps.map((step, i) => {
    const isFirst = !steps.slice(0, i).some(({ kind }) => kind === 'put-on');
    const isLast = i === steps.length - 1;
    if (step.kind === 'close-piece') return closingPiece(bench, step);
    if (step.kind === 'close') return closingSeam(bench, step);
    const before = [...on];
    on.push(...step.pieces);
    return puttingOn(bench, step, { before, isFirst, isLast });
  });
}

function closingPiece({ layer, production, roofIndex, layerIndex }: Bench, { pieces, joins }: AssemblyStep): Draft {
  const [piece = 0] = pieces;
  return {
    ...draft('close', pieces, [
      `${pieceName(layer, piece)} by itself: ${joins.length === 1 ? 'one seam joins' : 'these seams join'} its own edges.`,
      ...joinSentences(layer, joins, pieces, production.project.units),
    ]),
    joins,
    picture: {
      moment: { kind: 'folding', roof: roofIndex, layer: layerIndex, piece },
      alt: `${pieceName(layer, piece)} half way to its shape.`,
    },
  };
}

function closingSeam({ layer, production }: Bench, { pieces, joins }: AssemblyStep): Draft {
  const seam = layer.net.seams[joins[0] as number] as Seam;
  const sides = [...new Set(seam.sides.map(({ piece, panel }) => panelTitle(layer, piece, panel)))];
  const reach = layer.net.closing?.isReachable
    ? 'Your fingers reach it from inside, through the open edge.'
    : 'No finger reaches it from inside: press it on from outside along a ruler, or tape it on the outside.';
  return {
    ...draft('close', pieces, [
      `Last comes the seam ${seam.mark}, between ${listed(sides)}.`,
      ...joinSentences(layer, joins, pieces, production.project.units),
      reach,
    ]),
    joins,
    check: 'All points meet at the top, and the eave is one level line.',
  };
}

const panelTitle = ({ net, solid }: MadeLayer, piece: number, panel: number): string =>
  piece < 0 ? 'the roof' : (solid.faces[net.pieces[piece]?.panels[panel]?.face ?? -1]?.title ?? '');

function puttingOn(
  bench: Bench,
  { pieces, joins }: AssemblyStep,
  {
    before,
    isFirst,
    isLast,
  }: { readonly before: readonly number[]; readonly isFirst: boolean; readonly isLast: boolean },
): Draft {
  const { layer, production, roofIndex, layerIndex, isSeat } = bench;
  const keys = bench.rows.filter((row) => row.pieces.some((p) => pieces.includes(p))).map(({ key }) => String(key));
  const names = fewOrCount(
    pieces.map((p) => pieceName(layer, p)),
    `pieces from ${keys.length === 1 ? 'number' : 'numbers'} ${listed(keys)}`,
  );
  const moving = pieces.length > MOST_MOVING ? pieces.slice(0, 1) : pieces;
  const moment: Moment = { kind: 'going-on', roof: roofIndex, layer: layerIndex, on: before, moving };
  const there = before.length === 0 ? '' : ` ${plural(before.length, 'piece is', 'pieces are')} in place already.`;
  const check = checkAfter(layer, before, pieces, isLast);
  return {
    ...draft('put-on', pieces, [
      ...openings[isSeat ? 'seat' : layer.spec.as](names, {
        isFirst,
        isMany: pieces.length > 1,
        hasBody: bench.roof.spec.body !== null,
        isOnly: layer.net.pieces.length === 1,
      }),
      ...joinSentences(layer, joins, pieces, production.project.units),
      ...(isSeat ? [] : tightPieces(bench.roof, layerIndex))
        .filter(({ piece }) => pieces.includes(piece))
        .flatMap((tight) => tightSentences(layer, tight)),
      ...(pieces.length > MOST_MOVING
        ? ['The picture shows the first; the others go on in the same way, going round.']
        : []),
    ]),
    joins,
    ...(check ? { check } : {}),
    picture: {
      moment,
      alt: `${fewOrCount(
        moving.map((p) => pieceName(layer, p)),
        'pieces',
      )} just before ${moving.length === 1 ? 'it is' : 'they are'} in place, seen from ${viewOf(production, moment).words}.${there}`,
    },
  };
}

/** So many pieces at most are shown on their way in one picture. */
const MOST_MOVING = 4;
