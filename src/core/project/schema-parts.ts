import * as z from 'zod/mini';
import type { CountLimits } from './limits.ts';
import { orList } from './sentences.ts';

/*
 * What the schema of the project file is put together from. The `error` of every part is the phrase that completes
 * "Allowed: …"; of a group of keys it is the list of its keys.
 */

export type Schema = z.ZodMiniType;

/** Puts the description, and more of the JSON Schema where zod has no word for it, beside a part. */
export function describe<S extends Schema>(
  schema: S,
  description: string,
  more: Readonly<Record<string, unknown>> = {},
): S {
  z.globalRegistry.add(schema, { ...more, description });
  return schema;
}

export const optional = (schema: Schema, description: string): Schema => describe(z.optional(schema), description);

export const group = (
  keys: Record<string, Schema>,
  description: string,
  more?: Readonly<Record<string, unknown>>,
): Schema =>
  describe(
    z.strictObject(keys, {
      error: (issue) => (issue.code === 'unrecognized_keys' ? Object.keys(keys).join(', ') : 'a group of keys in { }'),
    }),
    description,
    more,
  );

export const listOf = (schema: Schema, description: string): Schema =>
  describe(
    z.array(schema, { error: 'a list in [ ]' }).check(z.minLength(1, { error: 'a list with at least one entry' })),
    description,
  );

export const words = (values: readonly string[], description: string): Schema =>
  describe(
    z.enum(values as [string, ...string[]], { error: orList(values.map((value) => `"${value}"`)) }),
    description,
  );

export const optionalWords = (values: readonly string[], description: string): Schema =>
  optional(words(values, description), description);

export function whole({ min, max }: CountLimits, description: string): Schema {
  const error = `a whole number from ${min} to ${max}`;
  return describe(z.int({ error }).check(z.gte(min, { error }), z.lte(max, { error })), description);
}

export const optionalWhole = (limits: CountLimits, description: string): Schema =>
  optional(whole(limits, description), description);

export const idSchema = (description: string): Schema => {
  const error = 'an id of letters, digits, - and _, such as "gate-tower"';
  return describe(z.string({ error }).check(z.regex(/^[A-Za-z0-9_-]{1,64}$/, { error })), description);
};

export const textSchema = (description: string): Schema =>
  describe(
    z.string({ error: 'a text in quotes' }).check(z.minLength(1, { error: 'a text of at least one letter' })),
    description,
  );

/** A required key with its own description beside the shared one of its type. */
export const describeUse = (schema: Schema, description: string): Schema =>
  describe(z.pipe(schema, z.unknown() as Schema) as unknown as Schema, description);
