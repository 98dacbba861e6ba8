import type { Issue } from '../issue.ts';
import type { KindId } from '../roofs/catalogue.ts';
import type { RoofDefinition } from '../roofs/definition.ts';
import { defaultRuler, parseScale, type Ruler, rulers, type Units } from '../units/units.ts';
import { type Intake, readLength } from './intake.ts';
import { defaults, lengthLimits } from './limits.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { Project, RoofSpec, Stock } from './project.ts';
import { resolveBody, resolveOverhang } from './resolve-body.ts';
import { resolveLayers } from './resolve-layer.ts';
import { resolveLayout, resolvePositions } from './resolve-layout.ts';
import { resolveNeighbours } from './resolve-neighbours.ts';
import { resolvePage } from './resolve-page.ts';
import { resolveSeat } from './resolve-seat.ts';
import { resolveShape } from './resolve-shape.ts';
import { resolveStock } from './resolve-stock.ts';
import { projectIssue } from './sentences.ts';

/**
 * The project of a file in the current version, with everything wrong in it beyond its structure. Reads whatever it
 * can of a file whose structure is wrong, so that all issues come at once; the project is of use only without errors.
 */
export function resolveFile(
  file: Readonly<Record<string, unknown>>,
  kinds: readonly RoofDefinition[],
): { readonly project: Project; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const report = (issue: Issue): void => {
    issues.push(issue);
  };
  const units: Units = file['units'] === 'in' ? 'in' : 'mm';
  const ruler: Ruler = rulers.find((name) => name === file['ruler']) ?? defaultRuler[units];
  const intake: Intake = { units, ruler, scale: readScale(file['scale'], report), report };
  const stock = listIn(file['stock']).map((entry, i) => resolveStock(intake, entry, ['stock', i]));
  checkIds(
    intake,
    stock.map((paper) => paper.id),
    'stock',
  );
  const roofs = listIn(file['roofs']).map((entry, i) => resolveRoof(intake, entry, ['roofs', i], kinds, stock));
  checkIds(
    intake,
    roofs.map((roof) => roof.id),
    'roofs',
  );
  const project: Project = {
    title: String(file['title']),
    units,
    ruler,
    scale: intake.scale,
    seed: typeof file['seed'] === 'number' ? file['seed'] : defaults.seed,
    page: resolvePage(intake, file['page']),
    stock,
    roofs,
    layout: resolveLayout(file['layout']),
    positions: resolvePositions(intake, file['positions']),
  };
  return { project, issues };
}

const listIn = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** Model size over typed size; 1 where the text cannot be read, so that the rest can. */
function readScale(found: unknown, report: (issue: Issue) => void): number {
  if (typeof found !== 'number' && typeof found !== 'string') return 1;
  const parsed = parseScale(found);
  if (parsed.ok) return parsed.value;
  for (const issue of parsed.issues) report({ ...issue, path: 'scale' });
  return 1;
}

function checkIds(intake: Intake, ids: readonly string[], list: string): void {
  ids.forEach((id, i) => {
    const first = ids.indexOf(id);
    if (id === '' || first === i) return;
    const facts = { found: `"${id}"`, other: formatPath([list, first]) };
    intake.report(projectIssue('duplicate-id', formatPath([list, i, 'id']), facts));
  });
}

function resolveRoof(
  intake: Intake,
  found: unknown,
  path: readonly PathPart[],
  kinds: readonly RoofDefinition[],
  stock: readonly Stock[],
): RoofSpec {
  const roof = isRecord(found) ? found : {};
  const id = typeof roof['id'] === 'string' ? roof['id'] : '';
  const hasOverhang = roof['overhang'] !== undefined;
  if (hasOverhang && roof['body'] === undefined) {
    intake.report(projectIssue('overhang-without-body', formatPath([...path, 'overhang'])));
  }
  const definition = kinds.find((kind) => kind.id === roof['kind']);
  const shape = roof['shape'];
  const body = resolveBody(intake, roof['body'], [...path, 'body']);
  const layers = resolveLayers(intake, listIn(roof['layers']), [...path, 'layers'], stock);
  const seat = resolveSeat(intake, roof['seat'], [...path, 'seat'], { body, stock, innermost: layers[0] });
  return {
    id,
    title: typeof roof['title'] === 'string' ? roof['title'] : id,
    copies: typeof roof['copies'] === 'number' ? roof['copies'] : 1,
    kind: (definition?.id ?? '') as KindId,
    shape:
      definition && isRecord(shape)
        ? resolveShape(intake, definition, shape, { path: [...path, 'shape'], hasOverhang, kinds })
        : {},
    body,
    overhang: resolveOverhang(intake, roof['overhang'], [...path, 'overhang'], definition),
    fascia:
      roof['fascia'] === undefined
        ? null
        : readLength(intake, roof['fascia'], [...path, 'fascia'], {
            ...lengthLimits.fascia,
            label: 'The fascia',
            isScaled: true,
          }),
    neighbours: resolveNeighbours(intake, roof, path, body),
    ...(seat ? { seat } : {}),
    layers,
  };
}
