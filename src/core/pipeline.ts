import type { Issue } from './issue.ts';
import { layoutJob, leftOutOf } from './lay-project.ts';
import type { LayoutEffort } from './layout/effort.ts';
import type { LaidSheet, Layout } from './layout/layout.ts';
import { bestLayout, usualEffort } from './layout/search-layout.ts';
import { type Effort, type MadeRoof, makeRoof, spelled } from './make-roof.ts';
import { countMaterials, type Materials } from './materials.ts';
import type { Project } from './project/project.ts';

/** Everything that follows from a project. Plain data. */
export interface Production {
  readonly project: Project;
  readonly roofs: readonly MadeRoof[];
  readonly sheets: readonly LaidSheet[];
  readonly materials: Materials;
  /** Of the whole project and of every roof, in order. */
  readonly issues: readonly Issue[];
}

/** How long is searched. */
export interface ProductionEffort extends Effort {
  /** For a layout; `usual`: some rounds, by the number of corners; missing: the layout that is found at once. */
  readonly layout?: LayoutEffort | 'usual';
}

/** From a project to its solids, nets, fit and layout. Bad shapes give issues; everything that can be made is made. */
export function produce(project: Project, effort: ProductionEffort = {}): Production {
  const roofs = project.roofs.map((spec, index) => makeRoof(spec, project, index, effort));
  return layRoofs({ project, roofs }, effort);
}

/** The pieces of roofs that are made laid on their sheets. */
export function layRoofs(
  { project, roofs }: Pick<Production, 'project' | 'roofs'>,
  effort: ProductionEffort = {},
): Production {
  const { job, issues } = layoutJob(project, roofs);
  return withLayout(
    { project, roofs },
    { job, issues },
    bestLayout(job, effort.layout === 'usual' ? usualEffort(job) : (effort.layout ?? { rounds: 0 })),
  );
}

/** Roofs that are made, with a layout of their pieces that was found for the job. */
export function withLayout(
  { project, roofs }: Pick<Production, 'project' | 'roofs'>,
  { job, issues }: ReturnType<typeof layoutJob>,
  layout: Layout,
): Production {
  const found = [...issues, ...leftOutOf(job, layout, roofs)];
  return {
    project,
    roofs,
    sheets: layout.sheets,
    materials: countMaterials(project, roofs, layout.sheets),
    issues: [...roofs.flatMap((roof) => roof.issues), ...spelled(found, project, '')],
  };
}
