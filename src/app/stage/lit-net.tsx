import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import { type BufferGeometry, MeshBasicMaterial } from 'three';
import type { WorkPlan } from '../../core/fold/approach.ts';
import { poseNet } from '../../core/fold/pose.ts';
import { FOLDED, layerMoment } from '../../core/fold/stops.ts';
import { stripsOf } from '../../core/fold/strips.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Place } from '../../core/issue.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import { litParts } from '../draw/lit-lines.ts';
import { useDisposing } from './disposing.ts';
import { emptyPart, partGeometry, posePart, pushPolygon, pushRibbon } from './flat-part.ts';
import type { FoldClock } from './fold-clock.ts';
import { flatten } from './folding-net.tsx';
import { firstOwners } from './net-parts.ts';
import { type Tone, tones } from './tones.ts';

export interface LitNetProps {
  readonly layer: MadeLayer;
  readonly places: readonly { readonly place: Place | null; readonly tone: Tone }[];
  readonly clock: FoldClock;
  readonly rest: number;
  readonly spots: readonly Vec2[];
  readonly plan: () => WorkPlan | undefined;
  /** Which of the layers it is, from the inside out. */
  readonly order: { readonly index: number; readonly count: number };
  readonly point: number;
}

/** Picture points: as wide as a felt pen. */
const WIDTH = 6;
/** Over the ink, mm. */
const ABOVE = 0.14;

/** Edges and panels that are meant by something that is said of the roof, marked where they lie and folding with them. */
export const LitNet = ({ places, ...rest }: LitNetProps): ReactNode =>
  places.map(({ place, tone }) => (place === null ? null : <Marked key={tone} {...rest} place={place} tone={tone} />));

interface MarkedProps extends Omit<LitNetProps, 'places'> {
  readonly place: Place;
  readonly tone: Tone;
}

const Marked = ({ layer, place, clock, rest, spots, plan, order, point, tone }: MarkedProps): ReactNode => {
  const { net, solid } = layer;
  const invalidate = useThree((state) => state.invalidate);
  const parts = useMemo(() => {
    const lines = emptyPart();
    const fills = emptyPart();
    const starts = firstOwners(net);
    const { sides, panels } = litParts(solid, net, place);
    const width = Math.min(3, Math.max(0.8, WIDTH * point));
    for (const { piece, panel, ends, isUnder } of sides) {
      const owner = (starts[piece] ?? 0) + panel;
      const z = isUnder ? -layer.thickness - ABOVE : ABOVE;
      pushRibbon(lines, ends[0], ends[1], width, { owner, z, under: isUnder });
    }
    for (const { piece, panel } of panels) {
      const owner = (starts[piece] ?? 0) + panel;
      const found = net.pieces[piece]?.panels[panel];
      if (found === undefined) continue;
      for (const ring of stripsOf(solid, found)) pushPolygon(fills, ring, { owner, z: ABOVE / 2 });
    }
    return [lines, fills] as const;
  }, [net, solid, place, layer.thickness, point]);
  const geometries = useDisposing(() => parts.map(partGeometry), [parts]);
  const materials = useDisposing(() => {
    const plain = {
      color: tones[tone],
      transparent: true,
      depthWrite: false,
      polygonOffset: true,
      polygonOffsetFactor: -2,
    };
    return [
      new MeshBasicMaterial({ ...plain, opacity: 0.95 }),
      // What is on the far side shows through the roof.
      new MeshBasicMaterial({ ...plain, opacity: 0.35, depthTest: false }),
      // A panel may lie within: a collar in its walls, a core under its paper.
      new MeshBasicMaterial({ ...plain, opacity: 0.35, depthTest: false }),
    ] as const;
  }, [tone]);
  useEffect(() => {
    const stop = clock.listen((whole) => {
      const t = layerMoment(whole, order.index, order.count);
      const going = t > FOLDED && t < 1 ? plan() : undefined;
      const poses = flatten(poseNet(solid, net, t, { rest, spots, ...(going ? { plan: going } : {}) }).pieces);
      const lifts = new Float32Array(poses.length);
      parts.forEach((part, i) => {
        const geometry = geometries[i];
        if (geometry !== undefined) posePart(part, geometry, poses, lifts);
      });
    });
    invalidate();
    return () => {
      stop();
      invalidate();
    };
  }, [clock, net, solid, rest, spots, plan, order, parts, geometries, invalidate]);
  const [lines, fills] = geometries as [BufferGeometry, BufferGeometry];
  return (
    <group>
      <mesh geometry={lines} material={materials[1]} renderOrder={5} frustumCulled={false} />
      <mesh geometry={lines} material={materials[0]} renderOrder={6} frustumCulled={false} />
      <mesh geometry={fills} material={materials[2]} renderOrder={4} frustumCulled={false} />
    </group>
  );
};
