import type { ReactNode } from 'react';
import { type BufferGeometry, MeshBasicMaterial, MeshLambertMaterial } from 'three';
import { poseNet } from '../../core/fold/pose.ts';
import type { SeamMatch } from '../../core/layout/print-match.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import { useDisposing } from './disposing.ts';
import { type Finish, insideTone } from './finish.ts';
import { partGeometry, posePart } from './flat-part.ts';
import { buildNetParts } from './net-parts.ts';
import type { Papers } from './papers.ts';
import { buildSeamLines, SEAM_WIDTH } from './seam-lines.ts';
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
  /** How its print goes over its seams, to be drawn along them. */
  readonly seams?: readonly SeamMatch[];
}

const none: readonly SeamMatch[] = [];

/** A layer that is already folded and stands where it belongs; it never moves. */
export const FinishedLayer = ({
  layer,
  finish,
  papers,
  rest,
  sunk,
  line,
  seams = none,
}: FinishedLayerProps): ReactNode => {
  const { net, solid } = layer;
  const geometries = useDisposing(() => {
    const thickness = Math.max(0.3, layer.thickness);
    const parts = buildNetParts(solid, net, { thickness, line, finish });
    const pose = poseNet(solid, net, 1, { rest, spots: net.pieces.map(() => [0, 0] as const) });
    const poses = pose.pieces.flatMap(({ panels, flaps, hems }) => [...panels, ...flaps, ...hems]);
    const lifts = tuckFlaps(solid, net, pose, thickness).map((tuck) => (tuck > thickness ? tuck + sunk : tuck - sunk));
    const marks = buildSeamLines(net, seams, line * SEAM_WIDTH);
    return [parts.wrong, parts.lines, marks, ...parts.prints].map((part) => {
      const geometry = partGeometry(part);
      posePart(part, geometry, poses, lifts);
      return geometry;
    });
  }, [net, solid, layer.thickness, finish, rest, sunk, line, seams]);
  const materials = useDisposing(
    () => [
      new MeshLambertMaterial({ color: insideTone(layer) }),
      new MeshBasicMaterial({ color: tones.ink, transparent: true, opacity: 0.5, depthWrite: false }),
      new MeshBasicMaterial({ color: tones.paper, depthWrite: false }),
    ],
    [layer.spec.as],
  );
  const prints = useDisposing(
    () => finish.looks.map((look) => new MeshLambertMaterial({ map: papers.texture(look) })),
    [papers, ...finish.looks.map(({ key }) => key)],
  );
  const [wrong, lines, marks, ...printed] = geometries as [
    BufferGeometry,
    BufferGeometry,
    BufferGeometry,
    ...BufferGeometry[],
  ];
  const [plain, ink, chalk] = materials as [MeshLambertMaterial, MeshBasicMaterial, MeshBasicMaterial];
  return (
    <group>
      {prints.map((paper, i) => (
        <mesh key={paper.uuid} geometry={printed[i] as BufferGeometry} material={paper} castShadow receiveShadow />
      ))}
      <mesh geometry={wrong} material={plain} castShadow receiveShadow />
      <mesh geometry={lines} material={ink} renderOrder={2} />
      {seams.length > 0 && <mesh geometry={marks} material={chalk} renderOrder={3} />}
    </group>
  );
};
