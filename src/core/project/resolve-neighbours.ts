import { wallNames } from '../footprint/sides.ts';
import { type Intake, readLength } from './intake.ts';
import { lengthLimits } from './limits.ts';
import { nearMiss } from './near-miss.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { Body, Neighbour } from './project.ts';
import { orList, projectIssue } from './sentences.ts';

/** What stands beside the body, at model size; what cannot be read is left out, with issues reported. */
export function resolveNeighbours(
  intake: Intake,
  roof: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
  body: Body | null,
): readonly Neighbour[] {
  const found = roof['neighbours'];
  if (!Array.isArray(found)) return [];
  if (roof['body'] === undefined) {
    intake.report(projectIssue('neighbour-without-body', formatPath([...path, 'neighbours'])));
    return [];
  }
  return found.filter(isRecord).flatMap((entry, i): Neighbour[] => {
    const at = [...path, 'neighbours', i];
    const { side } = entry;
    const read = (key: 'gap' | 'height', label: string): number =>
      readLength(intake, entry[key], [...at, key], {
        ...lengthLimits[key === 'gap' ? 'neighbourGap' : 'bodyHeight'],
        label,
        isScaled: true,
      });
    const [gap, height] = [read('gap', 'The gap to the neighbour'), read('height', 'The height of the neighbour')];
    if (typeof side !== 'string' || !body) return [];
    const walls = wallNames(body);
    if (!walls.includes(side)) {
      const meant = nearMiss(side, walls);
      const allowed = orList(walls.map((wall) => `"${wall}"`));
      const facts = { found: `"${side}"`, allowed, suggestion: meant && `"${meant}"` };
      intake.report(projectIssue('unknown-wall', formatPath([...at, 'side']), facts));
      return [];
    }
    return [{ side, gap, height }];
  });
}
