import { boundsCells } from '../../src/cli/kinds-command.ts';
import { buildRoof } from '../../src/core/make-roof.ts';
import type { ShapeValues } from '../../src/core/project/project.ts';
import { readProject } from '../../src/core/project/read-project.ts';
import { kinds } from '../../src/core/roofs/catalogue.ts';
import { fileKeysOf, type RoofDefinition } from '../../src/core/roofs/definition.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { lineDrawing } from './line-drawing.ts';

/** The solid of a shape as a maker types it, mm and degrees; read as a project would read it. */
export function solidOfShape(kind: string, shape: ShapeValues): Solid {
  const reading = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Drawing',
      units: 'mm',
      stock: [{ id: 'plain', name: 'Plain', width: 700, height: 700, direction: 'any' }],
      roofs: [{ id: 'roof', title: 'Roof', kind, shape, layers: [{ as: 'cover', stock: 'plain' }] }],
    }),
  );
  const [roof] = reading.ok ? reading.value.project.roofs : [];
  const built = roof ? buildRoof(roof) : null;
  if (!built?.ok) throw new Error(`${kind}: ${JSON.stringify([...reading.issues, ...(built?.issues ?? [])])}`);
  return built.value;
}

/** Every file of the pages on kinds by its path from `docs`: one page and a drawing for each kind, from the definitions. */
export function kindsPages(): ReadonlyMap<string, string> {
  const pages = new Map<string, string>();
  pages.set('kinds.md', [...intro, index(), ...kinds.map(section)].join('\n'));
  for (const { id, title, examples } of kinds) {
    const [example] = examples;
    if (example)
      pages.set(`kinds/${id}.svg`, lineDrawing(solidOfShape(id, example.shape), `${title}: ${example.title}`));
  }
  return pages;
}

const intro = [
  '# Kinds of roof',
  '',
  '<!-- generated from src/core/roofs by `node scripts/run.mjs scripts/docs/write-docs.ts`, checked by tests/docs.test.ts -->',
  '',
  'Every kind with all that can be said of it. Lengths are in mm and pitches in degrees here; a project file takes inches and',
  'rise over run too ([project-file.md](../shared/project-file.md)). Of a group exactly one is given, and the others follow from',
  'it.',
  '',
];

const index = (): string =>
  `${kinds.map(({ id, title }) => `[${title}](#${anchor(title)}) (\`${id}\`)`).join(' · ')}\n`;

/** As the pages' readers make it from a heading. */
const anchor = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/[^a-z0-9 -]/g, '')
    .replaceAll(' ', '-');

function section({ id, title, summary, params, examples }: RoofDefinition): string {
  const rows = params.map((param) => [
    fileKeysOf(param)
      .map((key) => `\`${key}\``)
      .join(', '),
    param.label,
    ...boundsCells(param),
    param.help,
  ]);
  const shapes = examples.map(({ title: name, shape }) => `- ${name}: \`${JSON.stringify(shape)}\``);
  return [
    `## ${title}`,
    '',
    `\`${id}\` · ${summary}`,
    '',
    `![${title}: ${examples[0]?.title ?? ''}](kinds/${id}.svg)`,
    '',
    '| Parameter | Label | Allowed | Default | |',
    '| --- | --- | --- | --- | --- |',
    ...rows.map((cells) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`),
    '',
    'Examples:',
    '',
    ...shapes,
    '',
  ].join('\n');
}
