import type { MadeRoof } from '../../core/make-roof.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { bench, useBench, useProduction, useStyle } from '../bench.ts';
import { obstacles } from '../obstacles.ts';
import { type FilePath, getAt, type JsonObject, setAt } from '../state/file-path.ts';
import type { RoofContext } from '../state/roof-edits.ts';

export interface RoofAtHand {
  readonly roof: MadeRoof;
  readonly typed: JsonObject;
  readonly definition: RoofDefinition;
  readonly context: RoofContext;
  /** Path of the roof, with more behind it. */
  readonly at: (...rest: FilePath) => FilePath;
  /** Takes the first candidate that makes a roof; says whether there was one. */
  readonly change: (candidates: readonly JsonObject[], how?: Change) => boolean;
  /** The same for a change of more than this roof: candidates are whole files. */
  readonly changeFile: (candidates: readonly JsonObject[], how?: Change) => boolean;
}

interface Change {
  /** Changes with the same gesture in a row are one step to undo. */
  readonly gesture?: string;
  /** What is said before the reasons where no candidate makes a roof. */
  readonly refusal?: string;
}

/** The roof that is worked on, with what its places need. */
export const useRoof = (): RoofAtHand | null => {
  const selected = useBench((state) => state.selected);
  const typed = useBench((state) => getAt(state.file, ['roofs', state.selected])) as JsonObject | undefined;
  const production = useProduction();
  const { units } = useStyle();
  const roof = production?.roofs[selected];
  const definition = findKind(String(typed?.['kind'])) ?? (roof && findKind(roof.spec.kind));
  if (production === null || roof === undefined || typed === undefined || definition === undefined) return null;
  const at = (...rest: FilePath): FilePath => ['roofs', selected, ...rest];
  return {
    roof,
    typed,
    definition,
    at,
    context: { typed, roof, definition, units, scale: production.project.scale },
    change: (candidates, how) => {
      const { file } = bench.store.getState();
      return takeFirst(
        candidates.map((candidate) => setAt(file, at(), candidate) as JsonObject),
        how,
      );
    },
    changeFile: takeFirst,
  };
};

/** Takes the first file that has a roof where the maker is; where there is none, says what keeps the first from it. */
const takeFirst = (
  files: readonly JsonObject[],
  { gesture, refusal = 'That would make no roof here.' }: Change = {},
): boolean => {
  const { selected } = bench.store.getState();
  const next = files.find((one) => obstacles(one, selected) === null);
  if (next !== undefined) {
    bench.edit(() => next, gesture);
    bench.store.setState({ notice: null });
    return true;
  }
  const issues = files[0] === undefined ? [] : (obstacles(files[0], selected) ?? []);
  bench.store.setState({ notice: { title: refusal, issues } });
  return false;
};
