import { cutLayers } from './cut-layers.ts';
import { pathLength, ringLength } from './geometry/polygon.ts';
import type { Issue } from './issue.ts';
import { layoutJob, leftOutOf } from './lay-project.ts';
import type { LaidSheet, Layout } from './layout/layout.ts';
import { bestLayout, type LayoutEffort } from './layout/search-layout.ts';
import { type Effort, type MadeRoof, makeRoof, spelled } from './make-roof.ts';
import { type SeamJoin, scoredLines } from './net/net.ts';
import type { Project } from './project/project.ts';

export interface Materials {
  readonly byStock: readonly { readonly stock: number; readonly sheets: number; readonly area: number }[];
  /** mm of seam joined by tape, of cutting and of scoring, all copies. */
  readonly tape: number;
  readonly cut: number;
  readonly score: number;
  /** mm of seam between boards, glued edge to edge, all copies. */
  readonly glue: number;
}

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
  /** For a layout; missing: the layout that is found at once. */
  readonly layout?: LayoutEffort;
}

/** From a project to its solids, nets, fit and layout. Bad shapes give issues; everything that can be made is made. */
export function produce(project: Project, effort: ProductionEffort = {}): Production {
  const roofs = project.roofs.map((spec, index) => makeRoof(spec, project, index, effort));
  const { job, issues } = layoutJob(project, roofs);
  return withLayout({ project, roofs }, { job, issues }, bestLayout(job, effort.layout ?? { rounds: 0 }));
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

function countMaterials(project: Project, roofs: readonly MadeRoof[], sheets: readonly LaidSheet[]): Materials {
  const byStock = project.stock.map((_, stock) => {
    const used = sheets.filter((sheet) => sheet.stock === stock);
    return {
      stock,
      sheets: used.length,
      area: used.reduce((sum, { width, height, used: share }) => sum + share * width * height, 0),
    };
  });
  let [tape, cut, score, glue] = [0, 0, 0, 0];
  for (const roof of roofs) {
    const { spec } = roof;
    for (const { solid, net } of cutLayers(roof)) {
      const along = (join: SeamJoin): number =>
        net.seams.reduce((sum, seam) => sum + (seam.join === join ? (solid.edges[seam.edge]?.length ?? 0) : 0), 0);
      tape += spec.copies * along('tape');
      glue += spec.copies * along('glue');
      for (const piece of net.pieces) {
        cut += spec.copies * ringLength(piece.outline);
        score += spec.copies * scoredLines(piece).reduce((sum, { points }) => sum + pathLength(points), 0);
      }
    }
  }
  return { byStock, tape, cut, score, glue };
}
