import { useMemo } from 'react';
import { overhangs } from '../../core/fit/overhang.ts';
import { buildRoof, type MadeRoof } from '../../core/make-roof.ts';
import type { Overhang, RoofSpec, TierSpec } from '../../core/project/project.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import { hasTiers, type RoofDefinition, type RoofParam } from '../../core/roofs/definition.ts';
import { type FilePath, isObject, type Json, type JsonObject } from '../state/file-path.ts';
import { omit, shapeOf } from '../state/roof-edits.ts';
import type { RoofAtHand } from './use-roof.ts';

/** The wall that an upper roof stands on is its body. */
const wallKey = ({ params }: RoofDefinition): string =>
  params.find((param) => param.quantity === 'wall')?.key ?? 'wall';

/** A roof within the roof as if it were one by itself, over the body or over the wall. */
const tierTyped = (typed: JsonObject, definition: RoofDefinition, { key, on }: RoofParam): JsonObject => {
  const tier = shapeOf(typed)[key];
  const { kind = '', shape = {}, overhang } = isObject(tier) ? tier : ({} as JsonObject);
  if (on === 'body') return { ...typed, kind, shape };
  const wall = shapeOf(typed)[wallKey(definition)] ?? {};
  return { kind, shape, body: wall, ...(overhang === undefined ? {} : { overhang }) };
};

/** The whole roof with this one changed; over a wall, and with what became of the wall. */
const withTier = (
  typed: JsonObject,
  definition: RoofDefinition,
  { key, on }: RoofParam,
  next: JsonObject,
): JsonObject => {
  const { kind = '', shape = {}, overhang, body } = next;
  const whole = shapeOf(typed);
  if (on === 'body') {
    const stands = { ...(body === undefined ? {} : { body }), ...(overhang === undefined ? {} : { overhang }) };
    return { ...omit(typed, ['body', 'overhang']), shape: { ...whole, [key]: { kind, shape } }, ...stands };
  }
  const tier: Json = { kind, shape, ...(overhang === undefined ? {} : { overhang }) };
  return {
    ...typed,
    shape: { ...whole, [wallKey(definition)]: body ?? whole[wallKey(definition)] ?? {}, [key]: tier },
  };
};

/** Made by itself: what its sizes are measured on. */
const makeTier = ({ made, ...roof }: MadeRoof, definition: RoofDefinition, param: RoofParam): MadeRoof | null => {
  const { spec } = roof;
  const tier = spec.shape[param.key] as TierSpec | undefined;
  if (tier === undefined || findKind(tier.kind) === undefined) return null;
  const body = param.on === 'body' ? spec.body : (spec.shape[wallKey(definition)] as RoofSpec['body']);
  const overhang: Overhang | null = param.on === 'body' ? spec.overhang : (tier.overhang ?? null);
  const own: RoofSpec = {
    ...spec,
    kind: tier.kind as RoofSpec['kind'],
    shape: tier.shape,
    body,
    overhang,
    fascia: null,
  };
  const built = made === null ? null : buildRoof(own);
  if (made === null || built === null || !built.ok) return { ...roof, spec: own, made: null };
  const out = body === null ? [] : overhangs(built.value, body).flatMap((wall) => wall.distances);
  const stands = out.length === 0 ? null : { min: Math.min(...out), max: Math.max(...out), walls: [] };
  return { ...roof, spec: own, made: { ...made, solid: built.value, fit: { ...made.fit, overhang: stands } } };
};

/**
 * What the places need to work on a roof within the roof as on one by itself: its fields write to where it stands in the
 * file, a change of it is a change of the whole. Null while the file says no such roof.
 */
export const useTier = (hand: RoofAtHand, param: RoofParam): RoofAtHand | null => {
  const { definition, roof, typed } = hand;
  const own = useMemo(() => makeTier(roof, definition, param), [roof, definition, param]);
  const ownTyped = useMemo(() => tierTyped(typed, definition, param), [typed, definition, param]);
  const kind = findKind(String(ownTyped['kind'])) ?? (own === null ? undefined : findKind(own.spec.kind));
  if (own === null || kind === undefined || hasTiers(kind)) return null;
  const isOnWall = param.on === 'wall';
  return {
    roof: own,
    typed: ownTyped,
    definition: kind,
    context: { ...hand.context, typed: ownTyped, roof: own, definition: kind },
    at: (...rest: FilePath) => {
      const [first, ...deeper] = rest;
      if (first === 'body') return isOnWall ? hand.at('shape', wallKey(definition), ...deeper) : hand.at(...rest);
      if (first === 'overhang' && !isOnWall) return hand.at(...rest);
      return hand.at('shape', param.key, ...rest);
    },
    changeFile: hand.changeFile,
    change: (candidates, how) =>
      hand.change(
        candidates.map((next) => withTier(typed, definition, param, next)),
        how,
      ),
  };
};
