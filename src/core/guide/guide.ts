import { cutLayers } from '../cut-layers.ts';
import type { MadeLayer, MadeRoof } from '../make-roof.ts';
import type { Production } from '../pipeline.ts';
import type { LayerKind } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { measureSolid } from '../solid/measure.ts';
import { isPositive } from '../tolerance.ts';
import type { Units } from '../units/units.ts';
import { cautions, tools } from './advice.ts';
import { type CutRow, cutRows } from './cut-list.ts';
import { glossaryOf } from './glossary.ts';
import type { Guide, GuideBlock, GuideSection, GuideStep } from './guide-data.ts';
import { pieceName, seamRows } from './joint-words.ts';
import { layerSteps } from './layer-steps.ts';
import { bothUnits, fewOrCount, listed, plural } from './words.ts';

/** The order of work for everything a project makes. Roofs that cannot be made are left out; their issues are told elsewhere. */
export function makeGuide(production: Production): Guide {
  const rows = cutRows(production);
  const sections: readonly GuideSection[] = [
    whatYouMake(production),
    whatItTakes(production),
    { id: 'safety', title: 'Before you begin', blocks: cautions },
    cutList(production, rows),
    ...sheetsSection(production, rows),
    ...production.roofs.flatMap((made, roof) => (made.made ? [roofSection(production, made, roof, rows)] : [])),
  ];
  const terms = glossaryOf(sections.flatMap(textsOf).join(' '));
  return {
    title: production.project.title,
    sections:
      terms.length === 0
        ? sections
        : [...sections, { id: 'words', title: 'Words', blocks: [{ kind: 'terms', terms }] }],
  };
}

/** Every step of a guide in order. */
export const stepsOf = ({ sections }: Guide): readonly GuideStep[] =>
  sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'step' ? [block.step] : [])));

const textsOf = ({ title, blocks }: GuideSection): readonly string[] => [title, ...blocks.flatMap(textsOfBlock)];

function textsOfBlock(block: GuideBlock): readonly string[] {
  if (block.kind === 'step') return [...block.step.sentences, block.step.check ?? ''];
  if (block.kind === 'table') return [...block.head, ...block.rows.flat()];
  if (block.kind === 'items') return block.items;
  if (block.kind === 'words' || block.kind === 'caution' || block.kind === 'heading') return [block.text];
  return [];
}

function whatYouMake({ project, roofs }: Production): GuideSection {
  return {
    id: 'make',
    title: 'What you make',
    blocks: roofs.flatMap((made, roof): GuideBlock[] => {
      const { spec } = made;
      const title = spec.copies > 1 ? `${spec.title}, ${spec.copies} times` : spec.title;
      if (!made.made) return [{ kind: 'words', text: `${title} cannot be made as it is: see what the bench says.` }];
      return [
        {
          kind: 'picture',
          picture: {
            moment: { kind: 'whole', roof },
            alt: `${spec.title}: ${kindTitle(made)}${spec.body ? ' on its body' : ''}, seen from the front right.`,
          },
          caption: `${title}: ${kindTitle(made)}, ${bothUnits(measureSolid(made.made.solid).rise, project.units)} high.${overhangWords(made, project.units)}`,
        },
      ];
    }),
  };
}

const kindTitle = ({ spec }: MadeRoof): string => (findKind(spec.kind)?.title ?? spec.kind).toLowerCase();

function overhangWords({ made }: MadeRoof, units: Units): string {
  const out = made?.fit.overhang;
  if (!out) return '';
  if (!isPositive(out.max)) return ' It ends flush with the walls.';
  const same = bothUnits(out.min, units) === bothUnits(out.max, units);
  return same
    ? ` It stands out ${bothUnits(out.max, units)} from the walls.`
    : ` It stands out ${bothUnits(out.min, units)} to ${bothUnits(out.max, units)} from the walls.`;
}

function whatItTakes({ project, materials }: Production): GuideSection {
  const { units } = project;
  const extra = [
    ...(materials.tape >= 1 ? [`Tape: ${bothUnits(materials.tape, units)}`] : []),
    ...(materials.glue >= 1 ? [`Glued edges of board: ${bothUnits(materials.glue, units)}`] : []),
  ];
  return {
    id: 'takes',
    title: 'What it takes',
    blocks: [
      {
        kind: 'table',
        head: ['Stock', 'Sheets', 'Size of a sheet'],
        rows: materials.byStock
          .filter(({ sheets }) => sheets > 0)
          .map(({ stock, sheets }) => {
            const paper = project.stock[stock];
            return [
              paper?.name ?? '',
              String(sheets),
              `${bothUnits(paper?.width ?? 0, units)} × ${bothUnits(paper?.height ?? 0, units)}`,
            ];
          }),
      },
      { kind: 'items', items: [...extra, ...tools] },
    ],
  };
}

function cutList(production: Production, rows: readonly CutRow[]): GuideSection {
  const { project, roofs } = production;
  const isMany = roofs.some(({ spec }) => spec.copies > 1);
  return {
    id: 'cut-list',
    title: 'Cut list',
    blocks: [
      {
        kind: 'words',
        text: `Like pieces share a number. Sizes are of the smallest upright rectangle round the piece, flaps included.${isMany ? ' Counts are of all copies together: do one operation on all of them before the next.' : ''}`,
      },
      ...project.stock.flatMap((stock, s): GuideBlock[] => {
        const own = rows.filter((row) => row.stock === s);
        if (own.length === 0) return [];
        return [
          { kind: 'heading', text: stock.name },
          {
            kind: 'table',
            head: ['No.', 'Piece', 'Count', 'Width', 'Height'],
            rows: own.map((row) => [
              String(row.key),
              rowName(roofs, row),
              String(row.count),
              bothUnits(row.width, project.units),
              bothUnits(row.height, project.units),
            ]),
          },
        ];
      }),
    ],
  };
}

function rowName(roofs: readonly MadeRoof[], { roof, layer, pieces }: CutRow): string {
  const made = roofs[roof] as MadeRoof;
  const own = cutLayers(made)[layer] as MadeLayer;
  const names = fewOrCount(
    pieces.map((p) => pieceName(own, p)),
    'like pieces',
  );
  const layers = cutLayers(made).length > 1 ? `, ${layerName(made, layer)}` : '';
  return `${made.spec.title}${layers}: ${names}`;
}

const layerNames: Readonly<Record<LayerKind, string>> = {
  board: 'the board core',
  shell: 'the folded shell',
  cover: 'the paper cover',
};

/** `the paper cover`; of several alike with their number. */
function layerName({ made, spec }: MadeRoof, layer: number): string {
  if (!made || layer >= made.layers.length) return 'the collar';
  const { as } = spec.layers[layer] as (typeof spec.layers)[number];
  const alike = spec.layers.filter((other) => other.as === as).length;
  const number = spec.layers.slice(0, layer + 1).filter((other) => other.as === as).length;
  return alike > 1 ? `${layerNames[as]} ${number}` : layerNames[as];
}

function sheetsSection({ project, sheets }: Production, rows: readonly CutRow[]): readonly GuideSection[] {
  if (sheets.length === 0) return [];
  const keyOf = new Map(
    rows.flatMap(({ key, roof, layer, pieces }) => pieces.map((piece) => [`${roof} ${layer} ${piece}`, key] as const)),
  );
  return [
    {
      id: 'sheets',
      title: 'The sheets',
      blocks: [
        {
          kind: 'words',
          text: 'Seen from the printed side, not to scale; numbers as in the cut list. Set each sheet out with a ruler, cut from the printed true-scale pages, or trace one plain piece as often as its count says.',
        },
        ...sheets.map((sheet, s): GuideBlock => {
          const name = `${project.stock[sheet.stock]?.name ?? ''}, sheet ${sheet.index + 1}`;
          return {
            kind: 'sheet',
            sheet: s,
            keys: sheet.placements.map(({ roof, layer, piece }) =>
              String(keyOf.get(`${roof} ${layer} ${piece}`) ?? ''),
            ),
            caption: `${name}: ${plural(sheet.placements.length, 'piece')}, ${Math.round(100 * sheet.used)} % of it used.`,
            alt: `${name}, with ${plural(sheet.placements.length, 'piece')} on it.`,
          };
        }),
      ],
    },
  ];
}

function roofSection(production: Production, roof: MadeRoof, index: number, rows: readonly CutRow[]): GuideSection {
  const { spec } = roof;
  const { units } = production.project;
  const layers = cutLayers(roof);
  const blocks = layers.flatMap((layer, l): GuideBlock[] => [
    ...(layers.length > 1 ? [{ kind: 'heading', text: capital(layerName(roof, l)) } as const] : []),
    ...(layer.net.seams.length > 0
      ? [{ kind: 'table', head: ['Seam', 'Edge', 'Join', 'Length'], rows: seamRows(layer, units) } as const]
      : []),
    ...layerSteps(production, index, l, rows).map((step): GuideBlock => ({ kind: 'step', step })),
  ]);
  return {
    id: `roof-${spec.id}`,
    title: spec.copies > 1 ? `${spec.title}, ${spec.copies} times` : spec.title,
    blocks: [...blocks, ...setDown(roof, units)],
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The finished roof goes on its body, or is looked at there. */
function setDown(roof: MadeRoof, units: Units): readonly GuideBlock[] {
  const { spec, made } = roof;
  if (!made || !spec.body) return [];
  const isGluedThere = made.layers[0]?.spec.as === 'cover' && !made.seat;
  const eaves = made.fit.eaves.map((eave) => bothUnits(eave, units));
  // A roof of gables all round has no eave.
  const height =
    eaves.length === 0
      ? ''
      : eaves.length > 2
        ? `The lowest eave is ${eaves[0]} over the table.`
        : `The eave is ${listed(eaves)} over the table, all round.`;
  const said = `${height}${overhangWords(roof, units)}`.trim();
  return [
    {
      kind: 'step',
      step: {
        id: `${spec.id}-set-down`,
        work: 'set-down',
        layer: -1,
        pieces: [],
        joins: [],
        sentences: isGluedThere
          ? ['Let the glue dry under light pressure, then look at the roof from all sides.']
          : [
              made.seat ? 'Lower the roof on to the body; the collar guides it.' : 'Set the roof on the body.',
              'Glue it to the tops of the walls, or leave it loose if it should lift off.',
            ],
        ...(said === '' ? {} : { check: said }),
      },
    },
  ];
}
