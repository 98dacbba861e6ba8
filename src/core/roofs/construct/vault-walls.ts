import type { Vec3 } from '../../geometry/vector.ts';
import type { AbutmentDraft, FaceDraft } from '../../solid/build-solid.ts';
import { isSameLength, SNAP_MM } from '../../tolerance.ts';
import { type Arch, archPoint } from './rolled.ts';

export interface VaultWalls {
  readonly arch: Arch;
  /** The walls reach from the angle -inner to inner, both among the arch's samples. */
  readonly inner: number;
  /** The vault runs from x = -half to half, the walls stand at x = -wall and wall. */
  readonly half: number;
  readonly wall: number;
}

/** End walls with an arched top: flush they share the vault's edge, set back they meet its inside. Turned: south and north. */
export function addVaultWalls(
  vault: FaceDraft,
  { arch, inner, half, wall }: VaultWalls,
  isTurned: boolean,
): { readonly faces: readonly FaceDraft[]; readonly abutments: readonly AbutmentDraft[] } {
  const angles = arch.angles.filter((angle) => Math.abs(angle) * arch.radius <= inner * arch.radius + SNAP_MM);
  const abutments: AbutmentDraft[] = [];
  const isFlush = isSameLength(half, wall);
  const walls = ([1, -1] as const).map((way): FaceDraft => {
    const id = isTurned ? (way > 0 ? 'north' : 'south') : way > 0 ? 'east' : 'west';
    const name = { id, title: `${id.charAt(0).toUpperCase()}${id.slice(1)} end`, part: 'wall', side: id } as const;
    // Seen from outside counter-clockwise: along the foot, then back over the arch.
    const over = angles.map((angle): Vec3 => archPoint(arch, way * (isFlush ? half : wall), angle));
    const points =
      way > 0 ? [over[0] as Vec3, ...over.slice(1).reverse()] : [over.at(-1) as Vec3, ...over.slice(0, -1)];
    if (!isFlush) {
      points.slice(1).forEach((from, i) => {
        abutments.push({ wall: id, slope: vault.id, ends: [from, points[(i + 2) % points.length] as Vec3] });
      });
    }
    return { ...name, points, samples: points.flatMap((_, i) => (i < 2 ? [] : [i])) };
  });
  return { faces: [vault, ...walls], abutments };
}
