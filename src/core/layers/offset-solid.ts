import { fail, type Issue, type Result, succeed } from '../issue.ts';
import type { Roll } from '../solid/roll.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { isPositive, ROLL_MM } from '../tolerance.ts';
import { abutmentTrouble, wallTrouble } from './face-trouble.ts';
import { type MovedSolid, moveSolid } from './move-solid.ts';
import type { NewRidge } from './offset-edges.ts';
import { meshOf } from './offset-mesh.ts';
import { offsetRules, partCorners } from './part-corners.ts';
import { coarsest, refineCurves, stepsFrom } from './refine-curves.ts';
import { meshOfSettled, type WallEnds } from './settle-walls.ts';
import { byHalving, tooThick } from './too-thick.ts';

/**
 * The solid whose faces lie `by` mm outside those of another (inside where it is negative), solved anew from the moved planes.
 * Faces keep their ids, titles, sides and order, edges their ids where they are the same edge. Free edges hold what they end at:
 * eaves, feet and open tops their level, verges their upright plane (flush with a wall, that wall's). A peak in which the moved
 * planes no longer meet becomes short ridges, which a note tells. Walls that have `settled` so far from the slopes end where they
 * do. Fails with the panel that would vanish and how far the faces can go.
 */
export function offsetSolid(solid: Solid, by: number, settled?: WallEnds): Result<Solid> {
  if (!isPositive(Math.abs(by))) return succeed(solid);
  const found = tryOffset(solid, by, settled);
  if (found.ok) return succeed(found.solid, ridgeNotes(found.solid, found.ridges));
  return fail(tooThick(solid, found.face, mostOffset(solid, by, found.at, settled), by));
}

function tryOffset(first: Solid, by: number, settled: WallEnds | undefined): MovedSolid {
  // A larger curve takes more samples.
  const guess = stepsFrom(Math.max(0, ...first.faces.map(({ roll }) => (roll ? deviationAfter(roll, by) : 0))));
  const once = offsetOnce(refineCurves(first, guess), by, settled);
  if (!once.ok) return once;
  const coarse = coarsest(once.solid);
  return coarse <= ROLL_MM ? once : offsetOnce(refineCurves(first, guess * stepsFrom(coarse)), by, settled);
}

/** How far the same samples will keep from their curve, mm: by the radius, that of a cone at its level eave. */
function deviationAfter({ surface, flat, deviation }: Roll, by: number): number {
  if (surface.form === 'cylinder') return deviation * (1 + by / surface.radius);
  const { apex, sine } = surface;
  const radius = sine * Math.max(...flat.map(([x, y]) => Math.hypot(x, apex - y)));
  return deviation * (1 + by / Math.sqrt((1 - sine) * (1 + sine)) / radius);
}

/** How far the faces can go the same way, mm: where something came to nothing, if all is sound until then; else by halving. */
function mostOffset(solid: Solid, by: number, known: number | null, settled: WallEnds | undefined): number {
  const isSound = (far: number): boolean => tryOffset(solid, Math.sign(by) * far, settled).ok;
  if (known !== null && known > 0 && isSound(NEARLY * known)) return known;
  return byHalving(known ?? Math.abs(by), isSound);
}

const NEARLY = 0.999;

function offsetOnce(solid: Solid, by: number, settled: WallEnds | undefined): MovedSolid {
  const mesh = settled
    ? meshOfSettled(solid, settled, by)
    : partCorners(solid, meshOf(solid), offsetRules, by < 0 ? -1 : 1);
  const moved = moveSolid(solid, mesh, by, by);
  if (!moved.ok) return moved;
  // Settled walls end at the underside, wherever the surface over them goes.
  const loose = (settled ? null : abutmentTrouble(moved.solid)) ?? wallTrouble(solid, moved.solid);
  return loose === null ? moved : { ok: false, face: loose, at: null };
}

function ridgeNotes({ edges }: Solid, ridges: readonly NewRidge[]): readonly Issue[] {
  const told = ridges.filter(({ edge }) => (edges[edge] as Edge).faces.length === 2);
  const byCorner = new Map<number, NewRidge[]>();
  for (const ridge of told) byCorner.set(ridge.origin, [...(byCorner.get(ridge.origin) ?? []), ridge]);
  return [...byCorner.values()].map((own): Issue => {
    const apart = Math.max(...own.map((ridge) => ridge.apart));
    const length = own.reduce((sum, { edge }) => sum + (edges[edge] as Edge).length, 0);
    return {
      level: 'note',
      code: 'peak-parted',
      path: '',
      numbers: { apart, length },
      message:
        'At the thickness of the layers the panels of a corner no longer meet in one point: opposite ones meet {apart} apart in height, with a short edge of {length} between them.',
      remedy: 'Nothing needs to be done: this layer is cut to that shape.',
      place: { edges: own.map(({ edge }) => (edges[edge] as Edge).id) },
    };
  });
}
