import { cutLayers } from './cut-layers.ts';
import { pathLength, ringLength } from './geometry/polygon.ts';
import type { Issue } from './issue.ts';
import { fingerprint } from './layout/fingerprint.ts';
import { layPieces, type PieceToLay } from './layout/lay.ts';
import type { LaidSheet } from './layout/layout.ts';
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

/** From a project to its solids, nets, fit and layout. Bad shapes give issues; everything that can be made is made. */
export function produce(project: Project, effort: Effort = {}): Production {
  const roofs = project.roofs.map((spec, index) => makeRoof(spec, project, index, effort));
  const pieces = piecesToLay(project, roofs);
  const { sheets, issues: layoutIssues } = layPieces(pieces, project.stock);
  return {
    project,
    roofs,
    sheets,
    materials: countMaterials(project, roofs, sheets),
    issues: [...roofs.flatMap((roof) => roof.issues), ...spelled(layoutIssues, project, '')],
  };
}

/** Every piece of every copy, with the sheets it may go on. */
export function piecesToLay({ stock }: Project, roofs: readonly MadeRoof[]): readonly PieceToLay[] {
  return roofs.flatMap((made, roof) =>
    cutLayers(made).flatMap(({ spec: { stock: ids }, net }, layer) => {
      const { spec } = made;
      const choices = ids.map((id) => stock.findIndex((one) => one.id === id));
      const prints = net.pieces.map(({ outline }) => fingerprint(outline));
      return Array.from({ length: spec.copies }, (_, copy) => copy).flatMap((copy) =>
        net.pieces.map(
          ({ id, title, outline, width, height }, piece): PieceToLay => ({
            roof,
            layer,
            piece,
            copy,
            id,
            fingerprint: prints[piece] as string,
            outline,
            width,
            height,
            stock: choices,
            title: `${spec.title}: ${title}`,
            path: layer < spec.layers.length ? `roofs[${roof}].layers[${layer}]` : `roofs[${roof}].seat`,
          }),
        ),
      );
    }),
  );
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
