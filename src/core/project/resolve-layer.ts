import { isPositive } from '../tolerance.ts';
import { type Intake, readLength, showLength } from './intake.ts';
import { defaults, LEAST_THICKNESS_THAT_COUNTS, lengthLimits } from './limits.ts';
import { nearMiss } from './near-miss.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { FlapSides, FlapSpec, LayerKind, LayerSpec, PiecesMode, Stock } from './project.ts';
import { orList, projectIssue } from './sentences.ts';

/** One layer of a roof; its papers are looked up in the project's stock. */
export function resolveLayer(
  intake: Intake,
  found: unknown,
  path: readonly PathPart[],
  stock: readonly Stock[],
): LayerSpec {
  const layer = isRecord(found) ? found : {};
  const as = (layer['as'] ?? 'cover') as LayerKind;
  const ids = resolveStockIds(intake, layer['stock'], [...path, 'stock'], stock);
  const thickness = layer['thickness'] === 'allow' ? 'allow' : 'ignore';
  checkThickness(
    intake,
    path,
    thickness,
    stock.find((paper) => paper.id === ids[0]),
  );
  return {
    as,
    stock: ids,
    pieces: (layer['pieces'] ?? (as === 'shell' ? 'one-piece' : 'per-panel')) as PiecesMode,
    flaps: resolveFlaps(intake, layer['flaps'], [...path, 'flaps']),
    ...(layer['hem'] === undefined
      ? {}
      : {
          hem: readLength(intake, layer['hem'], [...path, 'hem'], {
            ...lengthLimits.hem,
            label: 'The width of the hem',
          }),
        }),
    thickness,
  };
}

function resolveStockIds(
  intake: Intake,
  found: unknown,
  path: readonly PathPart[],
  stock: readonly Stock[],
): readonly string[] {
  const isList = Array.isArray(found);
  const ids = (isList ? found : [found]).filter((id) => typeof id === 'string');
  const known = stock.map((paper) => paper.id);
  ids.forEach((id, i) => {
    const at = formatPath(isList ? [...path, i] : path);
    if (!known.includes(id)) {
      const meant = nearMiss(id, known);
      const allowed = orList(known.filter((word) => word !== '').map((word) => `"${word}"`)) || 'none';
      intake.report(
        projectIssue('unknown-stock', at, { found: `"${id}"`, allowed, suggestion: meant && `"${meant}"` }),
      );
    } else if (ids.indexOf(id) < i) {
      intake.report(projectIssue('stock-twice', at, { found: `"${id}"` }));
    }
  });
  return ids;
}

/** Until offset surfaces are built, only layers that count as having no thickness can be cut. */
function checkThickness(
  intake: Intake,
  path: readonly PathPart[],
  thickness: LayerSpec['thickness'],
  paper: Stock | undefined,
): void {
  if (!paper || !isPositive(paper.thickness)) return;
  if (thickness === 'ignore' && paper.thickness < LEAST_THICKNESS_THAT_COUNTS) return;
  const least = showLength(LEAST_THICKNESS_THAT_COUNTS, 'mm');
  intake.report(
    projectIssue(
      'not-yet',
      formatPath(thickness === 'allow' ? [...path, 'thickness'] : [...path, 'stock']),
      {
        label: `Allowing for the thickness of a layer ("${paper.name}" is ${showLength(paper.thickness, 'mm')} thick)`,
        other:
          thickness === 'allow'
            ? 'Leave thickness out, or set it to "ignore".'
            : `Take a paper under ${least}: it counts as having no thickness.`,
      },
      { found: paper.thickness, most: LEAST_THICKNESS_THAT_COUNTS },
    ),
  );
}

function resolveFlaps(intake: Intake, found: unknown, path: readonly PathPart[]): FlapSpec {
  const flaps = isRecord(found) ? found : {};
  const length = (key: string, limits: keyof typeof lengthLimits, label: string, otherwise: number): number =>
    flaps[key] === undefined
      ? otherwise
      : readLength(intake, flaps[key], [...path, key], { ...lengthLimits[limits], label });
  const spec: FlapSpec = {
    width: length('width', 'flapWidth', 'The width of the flaps', defaults.flapWidth[intake.units]),
    on: (flaps['on'] ?? 'alternate') as FlapSides,
    clearance: length('clearance', 'clearance', 'The clearance of the flaps', defaults.clearance),
    least: length('least', 'leastFlap', 'The least usable width of a flap', defaults.leastFlap),
    instead: flaps['instead'] === 'strip' ? 'strip' : 'tape',
  };
  if (spec.on !== 'none' && isPositive(spec.least - spec.width)) {
    const show = (mm: number): string => showLength(mm, intake.units);
    intake.report(
      projectIssue(
        'flap-under-least',
        formatPath([...path, 'width']),
        { found: show(spec.width), other: show(spec.least) },
        { found: spec.width, least: spec.least },
      ),
    );
  }
  return spec;
}
