import type { Issue } from '../../core/issue.ts';
import { type MadeRoof, makeRoof } from '../../core/pipeline.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { bench, useBench, useProduction, useStyle } from '../bench.ts';
import { resolveTyped } from '../reader.ts';
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
  readonly change: (candidates: readonly JsonObject[]) => boolean;
}

/** What keeps a roof of this file from being made; null where it can be made. */
const obstacles = (file: JsonObject, index: number): readonly Issue[] | null => {
  const resolved = resolveTyped(file);
  if (!resolved.ok) return resolved.issues;
  const { project } = resolved.value;
  const spec = project.roofs[index];
  if (spec === undefined) return [];
  const { made, issues } = makeRoof(spec, project, index);
  return made === null ? issues : null;
};

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
    change: (candidates) => {
      const { file } = bench.store.getState();
      const files = candidates.map((candidate) => setAt(file, at(), candidate) as JsonObject);
      const next = files.find((one) => obstacles(one, selected) === null);
      if (next !== undefined) {
        bench.edit(() => next);
        bench.store.setState({ notice: null });
        return true;
      }
      const issues = files[0] === undefined ? [] : (obstacles(files[0], selected) ?? []);
      bench.store.setState({ notice: { title: 'That would make no roof here.', issues } });
      return false;
    },
  };
};
