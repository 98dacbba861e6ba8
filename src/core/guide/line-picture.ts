import { type Box, boxOf } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { CUT_MM } from '../tolerance.ts';
import { type Scene, type Stretch, seeLines } from './hidden-lines.ts';
import type { Sight } from './sight.ts';

/** Lines on paper, mm of the model, y up. */
export interface LinePicture {
  readonly lines: readonly Stretch[];
  /** What the whole scene takes in, hidden or not. */
  readonly box: Box;
}

/** The visible lines of a scene, each once; what is too short for a printer is left out. */
export function drawScene(scene: Scene, sight: Sight): LinePicture {
  const known = new Set<string>();
  const lines = seeLines(scene, sight)
    .flatMap(({ visible }) => visible)
    .filter(([a, b]) => {
      if (distance2(a, b) < CUT_MM) return false;
      const key = [keyOf(a), keyOf(b)].sort().join(' ');
      return known.size < known.add(key).size;
    });
  const points = scene.faces.flatMap(({ rings }) => rings.flat());
  return { lines, box: boxOf([...points, ...scene.lines.flatMap(({ ends }) => ends)].map((p) => flat(sight(p)))) };
}

const flat = ([x, y]: readonly [number, number, number]): Vec2 => [x, y];

/** To a hundredth of a millimetre: edges that two pieces share are drawn once. */
const keyOf = ([x, y]: Vec2): string => `${Math.round(x * 100)},${Math.round(y * 100)}`;
