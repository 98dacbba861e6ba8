import { type MadeRoof, makeRoof } from '../../core/pipeline.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import type { RoofDefinition } from '../../core/roofs/definition.ts';
import { bench, useBench, useProduction, useStyle } from '../bench.ts';
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

const makesRoof = (file: JsonObject, index: number): boolean => {
  const resolved = resolveProject(file);
  if (!resolved.ok) return false;
  const { project } = resolved.value;
  const spec = project.roofs[index];
  return spec !== undefined && makeRoof(spec, project, index).made !== null;
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
      const next = files.find((one) => makesRoof(one, selected));
      if (next === undefined) return false;
      bench.edit(() => next);
      return true;
    },
  };
};
