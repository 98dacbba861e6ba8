import { type ReactNode, useMemo } from 'react';
import { type BufferGeometry, MeshBasicMaterial, MeshLambertMaterial } from 'three';
import { poseNet } from '../../core/fold/pose.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import { useDisposing } from './disposing.ts';
import type { Finish } from './finish.ts';
import { partGeometry, posePart } from './flat-part.ts';
import { buildNetParts } from './net-parts.ts';
import type { Papers } from './papers.ts';
import { tones } from './tones.ts';
import { tuckFlaps } from './tuck.ts';

export interface FinishedLayerProps {
  readonly layer: MadeLayer;
  readonly finish: Finish;
  readonly papers: Papers;
  readonly rest: number;
  /** Shift inwards, mm: keeps a core clear of the paper over it. */
  readonly sunk: number;
  readonly line: number;
}

/** A layer that is already folded and stands where it belongs; it never moves. */
export const FinishedLayer = ({ layer, finish, papers, rest, sunk, line }: FinishedLayerProps): ReactNode => {
  const { net, solid } = layer;
  const geometries = useDisposing(() => {
    const thickness = Math.max(0.3, layer.thickness);
    const parts = buildNetParts(solid, net, { thickness, line, mapping: finish.mapping });
    const pose = poseNet(solid, net, 1, { rest, spots: net.pieces.map(() => [0, 0] as const) });
    const poses = pose.pieces.flatMap(({ panels, flaps, hems }) => [...panels, ...flaps, ...hems]);
    const lifts = tuckFlaps(solid, net, pose, thickness).map((tuck) => (tuck > thickness ? tuck + sunk : tuck - sunk));
    return [parts.print, parts.wrong, parts.lines].map((part) => {
      const geometry = partGeometry(part);
      posePart(part, geometry, poses, lifts);
      return geometry;
    });
  }, [net, solid, layer.thickness, finish, rest, sunk, line]);
  const texture = useMemo(() => papers.texture(finish.print), [papers, finish.print]);
  const materials = useDisposing(
    () =>
      [
        new MeshLambertMaterial({ map: texture }),
        new MeshLambertMaterial({ color: tones.wrongSide }),
        new MeshBasicMaterial({ color: tones.ink, transparent: true, opacity: 0.5, depthWrite: false }),
      ] as const,
    [texture],
  );
  const [print, wrong, lines] = geometries as [BufferGeometry, BufferGeometry, BufferGeometry];
  return (
    <group>
      <mesh geometry={print} material={materials[0]} castShadow receiveShadow />
      <mesh geometry={wrong} material={materials[1]} castShadow receiveShadow />
      <mesh geometry={lines} material={materials[2]} renderOrder={2} />
    </group>
  );
};
