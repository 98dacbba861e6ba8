import { apse } from './apse.ts';
import { barrel } from './barrel.ts';
import { bellCastCone } from './bell-cast-cone.ts';
import { bellCastGable } from './bell-cast-gable.ts';
import { bellCastHip } from './bell-cast-hip.ts';
import { bellCastPyramid } from './bell-cast-pyramid.ts';
import { bellCastSpire } from './bell-cast-spire.ts';
import { broachSpire } from './broach-spire.ts';
import { butterfly } from './butterfly.ts';
import { cone } from './cone.ts';
import { conicalFrustum } from './conical-frustum.ts';
import { crossGable } from './cross-gable.ts';
import type { RoofDefinition } from './definition.ts';
import { dome } from './dome.ts';
import { flat } from './flat.ts';
import { frustum } from './frustum.ts';
import { gable } from './gable.ts';
import { gablet } from './gablet.ts';
import { gambrel } from './gambrel.ts';
import { halfConeApse } from './half-cone-apse.ts';
import { halfHip } from './half-hip.ts';
import { helm } from './helm.ts';
import { hip } from './hip.ts';
import { hipAndValley } from './hip-and-valley.ts';
import { leanToHalfPyramid } from './lean-to-half-pyramid.ts';
import { leanToHalfSpire } from './lean-to-half-spire.ts';
import { mansard } from './mansard.ts';
import { ogeeSpire } from './ogee-spire.ts';
import { onion } from './onion.ts';
import { pyramid } from './pyramid.ts';
import { regularFrustum } from './regular-frustum.ts';
import { saltbox } from './saltbox.ts';
import { sawtooth } from './sawtooth.ts';
import { shed } from './shed.ts';
import { sideHip } from './side-hip.ts';
import { spire } from './spire.ts';
import { splayFootSpire } from './splay-foot-spire.ts';
import { twoTier } from './two-tier.ts';

const list = [
  pyramid,
  spire,
  gable,
  hip,
  hipAndValley,
  halfHip,
  sideHip,
  gablet,
  saltbox,
  gambrel,
  mansard,
  crossGable,
  shed,
  butterfly,
  sawtooth,
  flat,
  frustum,
  bellCastPyramid,
  bellCastHip,
  bellCastGable,
  broachSpire,
  helm,
  regularFrustum,
  splayFootSpire,
  cone,
  conicalFrustum,
  bellCastCone,
  barrel,
  halfConeApse,
  bellCastSpire,
  ogeeSpire,
  dome,
  onion,
  apse,
  leanToHalfPyramid,
  leanToHalfSpire,
  twoTier,
] as const;

export type KindId = (typeof list)[number]['id'];

/** Every kind of roof, in the order in which it is offered. Panel, command line, docs, schema and tests derive from this list. */
// A definition's `build` only reads its own parameters, which `resolveProject` has checked against `params`.
export const kinds: readonly RoofDefinition<KindId>[] = (list as unknown as readonly RoofDefinition<KindId>[]).map(
  (kind) => ({
    ...kind,
    find: findKind,
    build: (values, body) => kind.build(values, body, findKind),
    outlineFromBody: (body, overhang, values) => kind.outlineFromBody(body, overhang, values, findKind),
  }),
);

export function findKind(id: string): RoofDefinition<KindId> | undefined {
  return kinds.find((kind) => kind.id === id);
}
