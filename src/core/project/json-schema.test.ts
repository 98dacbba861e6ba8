import { describe, expect, it } from 'vitest';
import written from '../../../shared/project.schema.json?raw';
import { kinds } from '../roofs/catalogue.ts';
import { fileKeysOf } from '../roofs/definition.ts';
import { writeJsonSchema } from './json-schema.ts';

interface Part {
  readonly type?: unknown;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Part>>;
  readonly items?: Part;
  readonly oneOf?: readonly Part[];
  readonly anyOf?: readonly Part[];
  readonly additionalProperties?: unknown;
  readonly propertyNames?: unknown;
  readonly const?: unknown;
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Part>>;
}

interface Found {
  readonly at: string;
  readonly part: Part;
  /** Stands behind a key, so an editor shows its description; otherwise it is one of several forms, or a list's entry. */
  readonly isKey: boolean;
}

function* partsOf(found: Found): Generator<Found> {
  const { at, part } = found;
  yield found;
  for (const [key, inner] of Object.entries(part.properties ?? {})) {
    yield* partsOf({ at: `${at}.${key}`, part: whole(inner), isKey: true });
  }
  if (part.items) yield* partsOf({ at: `${at}[]`, part: part.items, isKey: false });
  for (const inner of [...(part.oneOf ?? []), ...(part.anyOf ?? [])]) {
    if (inner.type) yield* partsOf({ at, part: inner, isKey: false });
  }
}

const schema = JSON.parse(written) as Part;

/** A part with what it refers to: the shape of a kind is written once and used wherever a roof may be. */
const whole = (part: Part): Part => {
  const name = part.$ref?.replace('#/$defs/', '');
  return name === undefined ? part : { ...schema.$defs?.[name], ...part };
};

describe('the JSON Schema of the project file', () => {
  it('is written anew after each change (node scripts/run.mjs scripts/write-schema.ts)', () => {
    expect(written).toBe(writeJsonSchema(kinds));
  });

  it('knows no keys beyond its own, and says what each is for', () => {
    const shared = Object.entries(schema.$defs ?? {}).map(([at, part]): Found => ({ at, part, isKey: false }));
    expect(shared.map(({ at }) => at)).toEqual(expect.arrayContaining(['body', 'layer', 'length', 'pitch']));
    const parts = [{ at: 'file', part: schema, isKey: false }, ...shared].flatMap((found) => [...partsOf(found)]);
    expect(parts.length).toBeGreaterThan(60);
    for (const { at, part, isKey } of parts) {
      // A group by the ids of sides has keys of the maker's own.
      if (part.type === 'object' && !part.propertyNames) expect(part.additionalProperties, at).toBe(false);
      if (isKey && part.const === undefined) expect(part.description ?? '', at).toMatch(/\S\.$/);
    }
  });

  it('has every kind with every parameter', () => {
    const roofs = schema.properties?.['roofs']?.items?.oneOf ?? [];
    expect(roofs.map((roof) => roof.properties?.['kind']?.const)).toEqual(kinds.map((kind) => kind.id));
    kinds.forEach((kind, i) => {
      const shape = whole(roofs[i]?.properties?.['shape'] ?? {});
      expect(Object.keys(shape?.properties ?? {})).toEqual(kind.params.flatMap(fileKeysOf));
    });
  });
});
