import { type ThreeEvent, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import { type BufferGeometry, MeshBasicMaterial, MeshLambertMaterial } from 'three';
import type { WorkPlan } from '../../core/fold/approach.ts';
import { type PartPose, type PiecePose, poseNet } from '../../core/fold/pose.ts';
import { FOLDED, layerMoment } from '../../core/fold/stops.ts';
import type { Vec2, Vec3 } from '../../core/geometry/vector.ts';
import type { SeamMatch } from '../../core/layout/print-match.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import { panelSides } from '../draw/lit-lines.ts';
import { useDisposing } from './disposing.ts';
import { type Finish, insideTone } from './finish.ts';
import { emptyPart, type FlatPart, partGeometry, posePart } from './flat-part.ts';
import type { FoldClock } from './fold-clock.ts';
import { letterSpots } from './letter-spots.ts';
import { makeLettering, pushLabel } from './lettering.ts';
import { buildNetParts, firstOwners } from './net-parts.ts';
import type { Papers } from './papers.ts';
import { pointedEdge } from './pointed-edge.ts';
import { buildSeamLines, SEAM_WIDTH } from './seam-lines.ts';
import { ease } from './shot.ts';
import { tones } from './tones.ts';
import { tuckFlaps } from './tuck.ts';

export interface FoldingNetProps {
  readonly layer: MadeLayer;
  readonly finish: Finish;
  readonly papers: Papers;
  readonly clock: FoldClock;
  readonly rest: number;
  readonly spots: readonly Vec2[];
  /** How its pieces go on; asked for once they do. */
  readonly plan: () => WorkPlan | undefined;
  /** Its place among the layers, from the inside out. */
  readonly order: { readonly index: number; readonly count: number };
  /** Picture point on the table, mm: line width and lettering follow it. */
  readonly point: number;
  readonly family: string;
  /** How its print goes over its seams, to be drawn along them. */
  readonly seams: readonly SeamMatch[];
  /** See-through, for looking at the body below. */
  readonly ghost: boolean;
  /** Called with the id of the edge that is pointed at, or with null for a point off every edge. */
  readonly onPoint?: ((edge: string | null) => void) | undefined;
}

/** Picture points that a hand may slip between pressing and letting go. */
const MOST_SLIP = 6;
/** How near an edge a point has to be to mean it: picture points, and mm. */
const REACH = 22;
const LEAST_REACH = 2;

/** Paper is drawn no thinner than this, so that its cut side catches light. */
const leastThickness = 0.3;

/** Every owner's pose in the order the parts count them. */
export const flatten = (pieces: readonly PiecePose[]): readonly PartPose[] =>
  pieces.flatMap(({ panels, flaps, hems }) => [...panels, ...flaps, ...hems]);

/** Once on, a layer is drawn so far inside the next one, mm. */
const sunk = 0.6;

/** A layer of the selected roof, from flat on the table to glued in its place. */
export const FoldingNet = (props: FoldingNetProps): ReactNode => {
  const { layer, finish, papers, clock, rest, spots, plan, order, point, family, ghost, onPoint, seams } = props;
  const { net, solid } = layer;
  const invalidate = useThree((state) => state.invalidate);
  const thickness = Math.max(leastThickness, layer.thickness);

  const parts = useMemo(() => {
    const line = Math.min(1.2, Math.max(0.22, 1.15 * point));
    return buildNetParts(solid, net, { thickness, line, finish });
  }, [solid, net, thickness, point, finish]);

  const lettering = useDisposing(() => {
    const made = makeLettering(
      net.seams.map((seam) => seam.mark),
      family,
      { weight: 600, onPrint: true },
    );
    return { ...made, dispose: () => made.texture.dispose() };
  }, [net, family]);

  const marks = useMemo(() => {
    const part = emptyPart();
    const starts = firstOwners(net);
    for (const { mark, piece, panel, at, height } of letterSpots(net, solid, 19 * point)) {
      const owner = (starts[piece] ?? 0) + panel;
      pushLabel(part, lettering, { text: mark, at, angle: 0, height }, { owner, z: 0.06 });
    }
    return part;
  }, [net, solid, lettering, point]);

  const runs = useMemo(
    () => buildSeamLines(net, seams, SEAM_WIDTH * Math.min(1.2, Math.max(0.22, 1.15 * point))),
    [net, seams, point],
  );

  const geometries = useDisposing(
    () => [parts.wrong, parts.lines, marks, runs, ...parts.prints].map(partGeometry),
    [parts, marks, runs],
  );
  const materials = useDisposing(() => {
    const wrong = new MeshLambertMaterial({ color: insideTone(layer) });
    const ink = new MeshBasicMaterial({ color: tones.ink, transparent: true, depthWrite: false });
    const letters = new MeshBasicMaterial({ map: lettering.texture, transparent: true, depthWrite: false });
    const chalk = new MeshBasicMaterial({ color: tones.paper, depthWrite: false });
    return [wrong, ink, letters, chalk] as const;
  }, [lettering, layer.spec.as]);
  const printed = useDisposing(
    () => finish.looks.map((look) => new MeshLambertMaterial({ map: papers.texture(look) })),
    [papers, ...finish.looks.map(({ key }) => key)],
  );

  useEffect(() => {
    const [wrong, ink] = materials;
    for (const material of [...printed, wrong]) {
      material.transparent = ghost;
      material.opacity = ghost ? 0.3 : 1;
      material.depthWrite = !ghost;
      material.needsUpdate = true;
    }
    ink.opacity = ghost ? 0.55 : 1;
    invalidate();
  }, [materials, printed, ghost, invalidate]);

  useEffect(() => {
    const sources = [parts.wrong, parts.lines, marks, runs, ...parts.prints];
    const deep = sunk * (order.count - 1 - order.index);
    const tucks = tuckFlaps(solid, net, poseNet(solid, net, 1, { rest, spots }), thickness).map((tuck) =>
      tuck > thickness ? tuck + deep : tuck - deep,
    );
    const lifts = new Float32Array(tucks.length);
    const [, ink, letters] = materials;
    const stop = clock.listen((whole) => {
      const t = layerMoment(whole, order.index, order.count);
      const isGoingOn = t > FOLDED && t < 1;
      const going = isGoingOn ? plan() : undefined;
      const poses = flatten(poseNet(solid, net, t, { rest, spots, ...(going ? { plan: going } : {}) }).pieces);
      // Flat, the paper lies on the table with its whole thickness; folded, its printed side is the roof's surface and
      // flaps are glued below the panel they hold.
      const lift = (thickness + 0.08) * (1 - ease(0.1, 0.5, t));
      const share = ease(0.12, 0.5, t);
      tucks.forEach((tuck, owner) => {
        lifts[owner] = lift + tuck * share;
      });
      sources.forEach((part, i) => {
        posePart(part, geometries[i] as BufferGeometry, poses, lifts);
      });
      letters.opacity = 0.9 * (1 - ease(0.3, 0.62, t));
      letters.visible = letters.opacity > 0;
      if (!ghost) ink.opacity = 1 - 0.45 * ease(0.6, 1, t);
    });
    const unfollow = clock.follow(() => {
      const points: Vec3[] = [];
      for (const geometry of geometries.slice(4)) {
        const { array } = geometry.getAttribute('position');
        for (let i = 0; i < array.length; i += 3) {
          points.push([array[i] as number, array[i + 1] as number, array[i + 2] as number]);
        }
      }
      return points;
    });
    invalidate();
    return () => {
      stop();
      unfollow();
    };
  }, [
    clock,
    net,
    solid,
    rest,
    spots,
    plan,
    order,
    parts,
    marks,
    runs,
    geometries,
    materials,
    thickness,
    ghost,
    invalidate,
  ]);

  const sides = useMemo(() => panelSides(solid, net), [solid, net]);
  /** A click or tap on the paper means the edge that is nearest to it. */
  const pointable = (part: FlatPart): { onClick?: (event: ThreeEvent<MouseEvent>) => void } => {
    if (ghost || onPoint === undefined) return {};
    return {
      onClick: (event) => {
        // What follows a drag turned the table.
        if (event.delta > MOST_SLIP) return;
        event.stopPropagation();
        const edge = pointedEdge(event, part, { net, sides, reach: Math.max(LEAST_REACH, REACH * point) });
        onPoint(edge === null ? null : (solid.edges[edge]?.id ?? null));
      },
    };
  };

  const [wrong, lines, letterQuads, seamLines, ...prints] = geometries;
  return (
    <group>
      {printed.map((paper, i) => (
        <mesh
          key={paper.uuid}
          geometry={prints[i] as BufferGeometry}
          material={paper}
          {...pointable(parts.prints[i] as FlatPart)}
          castShadow={!ghost}
          receiveShadow
          frustumCulled={false}
        />
      ))}
      <mesh
        geometry={wrong as BufferGeometry}
        material={materials[0]}
        {...pointable(parts.wrong)}
        castShadow={!ghost}
        receiveShadow
        frustumCulled={false}
      />
      <mesh geometry={lines as BufferGeometry} material={materials[1]} renderOrder={2} frustumCulled={false} />
      <mesh geometry={letterQuads as BufferGeometry} material={materials[2]} renderOrder={3} frustumCulled={false} />
      {seams.length > 0 && (
        <mesh geometry={seamLines as BufferGeometry} material={materials[3]} renderOrder={4} frustumCulled={false} />
      )}
    </group>
  );
};
