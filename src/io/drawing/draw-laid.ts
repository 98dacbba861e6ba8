import { cutLayers } from '../../core/cut-layers.ts';
import { apply2, inverse2 } from '../../core/geometry/rigid2.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import { placementMotion } from '../../core/layout/placed.ts';
import type { Production } from '../../core/pipeline.ts';
import { drawOnce } from './draw-once.ts';
import { drawPiece } from './draw-piece.ts';
import { type Drawing, joinDrawings, moveDrawing } from './drawing.ts';

/** The pieces of a sheet where they lie on it, one drawing each; texts keep clear of the breaks (mm on the sheet). */
export const drawLaid = (
  { roofs }: Pick<Production, 'roofs'>,
  sheet: Pick<LaidSheet, 'placements'>,
  breaks: readonly (readonly [Vec2, Vec2])[] = [],
): readonly Drawing[] =>
  sheet.placements.flatMap((placement): readonly Drawing[] => {
    const roof = roofs[placement.roof];
    const layer = roof && cutLayers(roof)[placement.layer];
    if (roof === undefined || layer === undefined) return [];
    const { piece, copy } = placement;
    const motion = placementMotion(placement);
    const back = inverse2(motion);
    const own = breaks.map(([a, b]) => [apply2(back, a), apply2(back, b)] as const);
    return [moveDrawing(drawPiece({ roof: roof.spec, layer, piece, copy }, own), motion)];
  });

/** All of them in one; a cut that two pieces share is drawn once. */
export const joinLaid = (pieces: readonly Drawing[]): Drawing => {
  const { strokes, labels } = joinDrawings(...pieces);
  return { strokes: drawOnce(strokes), labels };
};
