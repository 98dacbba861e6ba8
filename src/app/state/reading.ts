import type { Issue, Result } from '../../core/issue.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Production } from '../../core/pipeline.ts';
import type { Project } from '../../core/project/project.ts';
import type { JsonObject } from './file-path.ts';

/** What the bench shows of a file. */
export interface Reading {
  /**
   * The production on screen: of this file where it reads; a roof that cannot be made stands as it last could. Null
   * until a file has read well.
   */
  readonly shown: Production | null;
  /** The file reads well and every roof could be made: what is shown is what the file says. */
  readonly isCurrent: boolean;
  /** Every issue of the file, project and roofs, in order. */
  readonly issues: readonly Issue[];
}

export type Resolve = (file: JsonObject) => Result<{ readonly project: Project }>;
export type Produce = (project: Project) => Production;
/** The pieces of roofs that are made already, laid. */
export type LayRoofs = (made: Pick<Production, 'project' | 'roofs'>) => Production;

/**
 * A reader remembers the last roof that could be made under each id, so that a slip of typing does not empty the
 * table. The same file object gives the same reading; where only positions differ from the file before, its roofs stay.
 */
export const createReader = (
  resolve: Resolve,
  produce: Produce,
  layRoofs: LayRoofs,
): ((file: JsonObject) => Reading) => {
  const lastGood = new Map<string, MadeRoof>();
  const known = new WeakMap<JsonObject, Reading>();
  let lastShown: Production | null = null;
  let last: { readonly file: JsonObject; readonly production: Production } | null = null;

  const make = (file: JsonObject, project: Project): Production => {
    if (last === null || !differInPositions(last.file, file)) return produce(project);
    const { roofs, project: before } = last.production;
    return layRoofs({ project: { ...project, roofs: before.roofs, stock: before.stock }, roofs });
  };

  const read = (file: JsonObject): Reading => {
    const resolved = resolve(file);
    if (!resolved.ok) return { shown: lastShown, isCurrent: false, issues: resolved.issues };
    const production = make(file, resolved.value.project);
    last = { file, production };
    let isCurrent = true;
    const roofs = production.roofs.map((roof) => {
      if (roof.made !== null) {
        lastGood.set(roof.spec.id, roof);
        return roof;
      }
      isCurrent = false;
      const before = lastGood.get(roof.spec.id);
      return before === undefined ? roof : { ...before, issues: roof.issues };
    });
    const shown: Production = isCurrent ? production : { ...production, roofs };
    lastShown = shown;
    return { shown, isCurrent, issues: [...resolved.issues, ...production.issues] };
  };

  return (file) => {
    const before = known.get(file);
    if (before !== undefined) return before;
    const reading = read(file);
    known.set(file, reading);
    return reading;
  };
};

/** Whether two files are the same in everything but where pieces lie. */
const differInPositions = (a: JsonObject, b: JsonObject): boolean =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => key === 'positions' || a[key] === b[key]);
