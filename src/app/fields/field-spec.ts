import type { FilePath, Json } from '../state/file-path.ts';

/** One thing a maker can set: where it stands in the file and how it is typed. */
export interface FieldSpec {
  readonly key: string;
  readonly label: string;
  readonly path: FilePath;
  readonly quantity: 'length' | 'pitch' | 'count' | 'text' | 'choice';
  /** For `choice`. */
  readonly choices?: readonly { readonly value: string; readonly label: string }[];
  /** What counts while the file says nothing. */
  readonly fallback?: Json;
  readonly help?: string;
  /** An empty box is an answer; a typed one gets a key that empties it. */
  readonly canLeaveOut?: boolean;
  /** Writes the value in another way than to `path`. */
  readonly write?: (value: Json | undefined, gesture?: string) => boolean;
  /** Reads the value otherwise than from `path`. */
  readonly read?: (file: Json) => Json | undefined;
}

type Choices = NonNullable<FieldSpec['choices']>;

/** A choice kept at a path of the file, named by its last step; the first of them counts while the file says nothing. */
export const choiceField = (
  path: readonly [...FilePath, string],
  label: string,
  choices: Choices,
  help?: string,
): FieldSpec => ({
  key: path[path.length - 1] as string,
  label,
  path,
  quantity: 'choice',
  fallback: choices[0]?.value ?? '',
  choices,
  ...(help === undefined ? {} : { help }),
});
