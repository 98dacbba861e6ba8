import { fromDegrees } from '../units/units.ts';
import { type Intake, readLength } from './intake.ts';
import { lengthLimits } from './limits.ts';
import { isRecord, type PathPart } from './path.ts';
import type { LayoutSpec, PositionSpec } from './project.ts';

/** How pieces are laid; words that are not known were reported with the structure of the file. */
export function resolveLayout(found: unknown): LayoutSpec {
  const layout = isRecord(found) ? found : {};
  return {
    cuts: layout['cuts'] === 'strips' ? 'strips' : 'free',
    prefer: layout['prefer'] === 'cheapest' ? 'cheapest' : 'sheets',
    offcuts: layout['offcuts'] === 'first' ? 'first' : 'as-listed',
  };
}

/** Where pieces lie, mm and radians. What the ids mean is found out when there are pieces. */
export function resolvePositions(intake: Intake, found: unknown): readonly PositionSpec[] {
  return (Array.isArray(found) ? found : []).map((entry, i) => resolvePosition(intake, entry, ['positions', i]));
}

function resolvePosition(intake: Intake, found: unknown, path: readonly PathPart[]): PositionSpec {
  const position = isRecord(found) ? found : {};
  const text = (key: string): string => (typeof position[key] === 'string' ? position[key] : '');
  const number = (key: string): number => (typeof position[key] === 'number' ? position[key] : 0);
  const length = (key: 'x' | 'y'): number =>
    readLength(intake, position[key], [...path, key], { ...lengthLimits.position, label: 'The place of the piece' });
  return {
    roof: text('roof'),
    layer: number('layer'),
    piece: text('piece'),
    copy: number('copy'),
    stock: text('stock'),
    sheet: number('sheet'),
    x: length('x'),
    y: length('y'),
    rotation: fromDegrees(number('rotation')),
    locked: position['locked'] === true,
    ...(position['fingerprint'] === undefined ? {} : { fingerprint: text('fingerprint') }),
  };
}
