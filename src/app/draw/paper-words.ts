import { trimPlanOf } from '../../core/materials.ts';
import type { Production } from '../../core/pipeline.ts';

/** How much paper it takes, a sentence for each paper that is used, and the cuts of a paper trimmer where that is asked for. */
export const sheetsWords = ({ project, roofs, sheets, materials }: Production): readonly string[] => {
  const papers = materials.byStock.flatMap(({ stock, sheets: count, used, price }) => {
    const paper = project.stock[stock];
    if (paper === undefined || count === 0) return [];
    const of = paper.count === null ? '' : ` of ${paper.count}`;
    const cost = price === undefined ? '' : `, for ${price.amount.toFixed(2)} ${price.currency}`;
    return [
      `${paper.name}: ${count === 1 ? 'one sheet' : `${count} sheets`}${of}, ${Math.round(100 * used)}\u00a0% of it used${cost}.`,
    ];
  });
  if (papers.length === 0) return ['No piece is laid.'];
  if (project.layout.cuts !== 'strips') return papers;
  const cuts = sheets.reduce((sum, sheet) => sum + trimPlanOf(roofs, sheet).cuts.length, 0);
  return [...papers, cuts === 1 ? 'One straight cut from edge to edge.' : `${cuts} straight cuts from edge to edge.`];
};
