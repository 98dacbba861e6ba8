import { describe, expect, it } from 'vitest';
import written from '../../../shared/project.schema.json?raw';
import { kinds } from '../roofs/catalogue.ts';
import { writeJsonSchema } from './json-schema.ts';

interface Part {
  readonly type?: unknown;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Part>>;
  readonly items?: Part;
  readonly oneOf?: readonly Part[];
  readonly anyOf?: readonly Part[];
  readonly additionalProperties?: unknown;
  readonly const?: unknown;
  readonly $ref?: string;
}

/** Every group of keys and every key in it, with where it stands. */
function* partsOf(part: Part, at: string): Generator<readonly [string, Part]> {
  yield [at, part];
  for (const [key, inner] of Object.entries(part.properties ?? {})) yield* partsOf(inner, `${at}.${key}`);
  if (part.items) yield* partsOf(part.items, `${at}[]`);
  for (const inner of [...(part.oneOf ?? []), ...(part.anyOf ?? [])]) if (inner.type) yield* partsOf(inner, at);
}

describe('the JSON Schema of the project file', () => {
  const schema = JSON.parse(written) as Part;

  it('is written anew after each change (node scripts/run.mjs scripts/write-schema.ts)', () => {
    expect(written).toBe(writeJsonSchema(kinds));
  });

  it('knows no keys beyond its own, and says what each is for', () => {
    const parts = [...partsOf(schema, 'file')];
    expect(parts.length).toBeGreaterThan(60);
    for (const [at, part] of parts) {
      if (part.type === 'object') expect(part.additionalProperties, at).toBe(false);
      const isOnlyOneWord = part.const !== undefined;
      const isForm = !at.includes('.') || /\[\]$|\.overhang$/.test(at);
      if (!isOnlyOneWord && !isForm) expect(part.description, at).toMatch(/[\w°]\.$/);
    }
  });

  it('has every kind with every parameter', () => {
    const roofs = schema.properties?.['roofs']?.items?.oneOf ?? [];
    expect(roofs.map((roof) => roof.properties?.['kind']?.const)).toEqual(kinds.map((kind) => kind.id));
    kinds.forEach((kind, i) => {
      const shape = roofs[i]?.properties?.['shape'];
      expect(Object.keys(shape?.properties ?? {})).toEqual(kind.params.map((param) => param.key));
    });
  });
});
