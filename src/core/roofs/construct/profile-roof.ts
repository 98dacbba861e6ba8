import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import { type AbutmentDraft, buildSolid, type FaceDraft } from '../../solid/build-solid.ts';
import type { Solid } from '../../solid/solid.ts';
import { isPositive, NOISE_MM } from '../../tolerance.ts';
import { addEndWalls, type WallLine } from './end-walls.ts';

/** One face of a roof that is the same from the west end to the east end. */
export interface ProfileFace {
  readonly id: string;
  readonly title: string;
  /** Seen from the west: y and level of its south edge and of its north edge, mm. One over the other: upright. */
  readonly from: Vec2;
  readonly to: Vec2;
}

export interface ProfileRoof {
  /** From the west end to the east end, mm. */
  readonly width: number;
  /** From south to north, each beginning where the one before ends. */
  readonly faces: readonly ProfileFace[];
  readonly walls: readonly WallLine[];
}

const isUpright = ({ from, to }: ProfileFace): boolean => Math.abs(to[0] - from[0]) <= NOISE_MM;

/**
 * A roof by its profile, with walls under its slopes. An upright face closes the walls that end behind it: flush with the
 * end of the roof they share its edge, further in they meet its inside.
 */
export function raiseProfile({ width, faces, walls }: ProfileRoof): Solid {
  const x = width / 2;
  const drafts = faces.map((face): FaceDraft => {
    const { id, title, from, to } = face;
    const corner = (east: number, [y, z]: Vec2): Vec3 => [east * x, y, z];
    return {
      id,
      title,
      part: isUpright(face) ? 'wall' : 'slope',
      side: id,
      points: [corner(-1, from), corner(1, from), corner(1, to), corner(-1, to)],
    };
  });
  const slopes = drafts.filter((draft) => draft.part === 'slope');
  const uprights = faces.filter(isUpright);
  const added = addEndWalls(slopes, walls);
  const endings = added.faces
    .filter((face) => face.part === 'wall')
    .flatMap(({ id, points }) =>
      points.flatMap((start, i): AbutmentDraft[] => {
        const end = points[(i + 1) % points.length] as Vec3;
        const isPlumb = !isPositive(Math.hypot(end[0] - start[0], end[1] - start[1]));
        const host = uprights.find(({ from }) => !isPositive(Math.abs(from[0] - start[1])));
        return isPlumb && host && Math.abs(start[0]) < x - NOISE_MM
          ? [{ wall: id, slope: host.id, ends: [start, end] }]
          : [];
      }),
    );
  const byId = new Map(added.faces.map((face) => [face.id, face]));
  const closed = added.faces.filter((face) => face.part === 'wall');
  return buildSolid(
    [...drafts.map((draft) => byId.get(draft.id) ?? draft), ...closed],
    [...added.abutments, ...endings],
  );
}
