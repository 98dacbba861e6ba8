import { footprintKeys } from '../footprint/footprint.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Result } from '../issue.ts';
import type { Body, Overhang, ShapeValues, SidePitches, TierSpec } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';

interface ParamBase {
  readonly key: string;
  /** What the panel, the docs and the error sentences call it. */
  readonly label: string;
  readonly help: string;
  /** Of the parameters of one group exactly one is given; the others follow. */
  readonly oneOf?: 'height' | 'plan';
  /** Part of the eave outline: left out where the outline follows from the body and an overhang. */
  readonly outline?: true;
  /** May be left out though it has no default: the kind then derives it from the others. Its help ends in `; as …`, which says how. */
  readonly optional?: true;
}

/** Bounds and default in mm, bounds included. */
export interface LengthParam extends ParamBase {
  readonly quantity: 'length';
  readonly min: number;
  readonly max: number;
  /** Missing: must be given (or another of its group), unless it is optional. */
  readonly default?: number;
}

/** Bounds and default in radians; the file takes degrees or rise over run as `8/12`. */
export interface PitchParam extends ParamBase {
  readonly quantity: 'pitch';
  readonly min: number;
  readonly max: number;
  readonly default?: number;
}

export interface CountParam extends ParamBase {
  readonly quantity: 'count';
  readonly min: number;
  readonly max: number;
  readonly default?: number;
}

export interface ChoiceParam extends ParamBase {
  readonly quantity: 'choice';
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  readonly default: string;
}

/** The eave outline measured in another way; the file spreads it over `footprintKeys`. Its value: the corners, counter-clockwise. */
export interface FootprintParam extends ParamBase {
  readonly key: 'corners';
  readonly quantity: 'footprint';
  readonly outline: true;
  readonly default?: undefined;
}

/** Open courts inside a measured outline. Their value: the corners of each, counter-clockwise. */
export interface CourtsParam extends ParamBase {
  readonly key: 'courts';
  readonly quantity: 'courts';
  readonly outline: true;
  readonly optional: true;
  readonly default?: undefined;
}

/** Sides with a pitch of their own, or gables, by the side's id (`sideNames`). Bounds in radians. */
export interface SidePitchesParam extends ParamBase {
  readonly quantity: 'side-pitches';
  readonly min: number;
  readonly max: number;
  readonly optional: true;
  readonly default?: undefined;
}

/** A roof of another kind within this one. */
export interface RoofParam extends ParamBase {
  readonly quantity: 'roof';
  /** `body`: its outline follows from the body and the overhang where the whole roof has one. `wall`: it may have an overhang of its own. */
  readonly on: 'body' | 'wall';
  readonly default?: undefined;
}

/** A wall within the roof, by its plan and height. */
export interface WallParam extends ParamBase {
  readonly quantity: 'wall';
  readonly default?: undefined;
}

/** Said with one number or word. */
export type TypedParam = LengthParam | PitchParam | CountParam | ChoiceParam;

export type Param = TypedParam | FootprintParam | CourtsParam | SidePitchesParam | RoofParam | WallParam;

export const isTyped = (param: Param): param is TypedParam =>
  param.quantity === 'length' ||
  param.quantity === 'pitch' ||
  param.quantity === 'count' ||
  param.quantity === 'choice';

/** Whether a roof is made of roofs; such a one is not part of another. */
export const hasTiers = ({ params }: Pick<RoofDefinition, 'params'>): boolean =>
  params.some((param) => param.quantity === 'roof');

/** The keys of a shape in the file that say this parameter. */
export const fileKeysOf = (param: Param): readonly string[] =>
  param.quantity === 'footprint' ? footprintKeys : [param.key];

/** What `build` is given for a parameter. */
type ValueOf<P extends Param> = P extends ChoiceParam
  ? P['choices'][number]['value']
  : P extends FootprintParam
    ? readonly Vec2[]
    : P extends CourtsParam
      ? readonly (readonly Vec2[])[]
      : P extends SidePitchesParam
        ? SidePitches
        : P extends RoofParam
          ? TierSpec
          : P extends WallParam
            ? Body
            : number;

/** What `build` is given: given parameters and defaults, mm and radians; a group holds exactly one value, an optional one may be missing. */
export type ParamValues<P extends readonly Param[]> = readonly Param[] extends P
  ? ShapeValues
  : { readonly [Q in P[number] as Q['key']]?: ValueOf<Q> };

/** Looks up another kind, for roofs made of roofs. The catalogue gives it: none of the kinds it lists may import it. */
export type FindKind = (id: string) => RoofDefinition | undefined;

export interface RoofDefinition<Id extends string = string, P extends readonly Param[] = readonly Param[]> {
  readonly id: Id;
  readonly title: string;
  /** One sentence: what the roof looks like. */
  readonly summary: string;
  /** Other words by which a maker may look for it; only searched, never shown as its name. */
  readonly alsoCalled?: readonly string[];
  readonly params: P;
  /** The roof's solid, centred on the origin, z = 0 at the eave. The body says where end walls stand; it may be missing. */
  readonly build: (values: ParamValues<P>, body: Body | null, find?: FindKind) => Result<Solid>;
  /** Whether it has gable ends, so that an overhang may say something else there. */
  readonly hasVerge: boolean;
  /** The outline parameters that an overhang over this body gives. */
  readonly outlineFromBody: (
    body: Body,
    overhang: Overhang,
    values: ParamValues<P>,
    find?: FindKind,
  ) => Result<ShapeValues>;
  /** Named examples in mm and degrees, as a maker could type them. */
  readonly examples: readonly { readonly title: string; readonly shape: ShapeValues }[];
  /** The other kinds of the catalogue that lists this one; set by it. */
  readonly find?: FindKind;
}

/** Keeps the literal types of id and parameters. */
export const defineRoof = <const Id extends string, const P extends readonly Param[]>(
  definition: RoofDefinition<Id, P>,
): RoofDefinition<Id, P> => definition;
