import { isPositive } from '../tolerance.ts';
import { type Intake, readLength, showLength } from './intake.ts';
import { defaults, lengthLimits } from './limits.ts';
import { nearMiss } from './near-miss.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type {
  BoardEdges,
  FlapSides,
  FlapSpec,
  LayerKind,
  LayerSpec,
  PiecesMode,
  SeamChoices,
  Stock,
} from './project.ts';
import { orList, projectIssue } from './sentences.ts';

/** From the inside out. */
const order: readonly LayerKind[] = ['board', 'shell', 'cover'];

/** The layers of a roof, from the inside out: paper covers what card or board is under it, and card what board is. */
export function resolveLayers(
  intake: Intake,
  found: readonly unknown[],
  path: readonly PathPart[],
  stock: readonly Stock[],
): readonly LayerSpec[] {
  const layers = found.map((layer, i) => resolveLayer(intake, layer, [...path, i], stock));
  layers.forEach(({ as }, i) => {
    const under = layers[i - 1]?.as;
    if (under === undefined) return;
    const isTwice = as === 'board' && under === 'board';
    if (!isTwice && order.indexOf(as) >= order.indexOf(under)) return;
    const code = isTwice ? 'board-twice' : 'layer-order';
    intake.report(projectIssue(code, formatPath([...path, i, 'as']), { found: as, other: under }));
  });
  return layers;
}

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
  if (as === 'board')
    checkBoard(
      intake,
      layer,
      path,
      stock.find((sheet) => sheet.id === ids[0]),
    );
  else if (layer['edges'] !== undefined)
    intake.report(projectIssue('edges-of-board', formatPath([...path, 'edges']), { found: as }));
  return {
    as,
    stock: ids,
    ...(as === 'board' ? { edges: (layer['edges'] ?? 'square') as BoardEdges } : {}),
    pieces: (layer['pieces'] ?? (as === 'shell' ? 'one-piece' : 'per-panel')) as PiecesMode,
    flaps: resolveFlaps(intake, layer['flaps'], [...path, 'flaps']),
    ...(isRecord(layer['seams']) ? { seams: layer['seams'] as SeamChoices } : {}),
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

/** What board cannot be: folded, without thickness. */
function checkBoard(
  intake: Intake,
  layer: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
  stock: Stock | undefined,
): void {
  const { pieces } = layer;
  if (pieces === 'one-piece' || pieces === 'fewest') {
    intake.report(projectIssue('board-pieces', formatPath([...path, 'pieces']), { found: `"${pieces}"` }));
  }
  for (const key of ['flaps', 'hem', 'seams'] as const) {
    if (layer[key] !== undefined)
      intake.report(projectIssue('board-folds', formatPath([...path, key]), { found: key }));
  }
  if (stock && !isPositive(stock.thickness)) {
    intake.report(projectIssue('board-thickness', formatPath([...path, 'stock']), { found: `"${stock.id}"` }));
  }
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
