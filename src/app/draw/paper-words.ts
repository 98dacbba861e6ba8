import type { Production } from '../../core/pipeline.ts';
import type { Ruler, Units } from '../../core/units/units.ts';

interface Style {
  readonly units: Units;
  readonly ruler: Ruler;
}

/** Of a hundred. */
const HUNDRED = 100;

/** How much paper it takes, a sentence for each paper that is used. */
export const sheetsWords = ({ project, sheets }: Production, _style: Style): readonly string[] => {
  const used = project.stock.flatMap((paper, s) => {
    const own = sheets.filter(({ stock, placements }) => stock === s && placements.length > 0);
    if (own.length === 0) return [];
    const share = own.reduce((sum, { used: part }) => sum + part, 0) / own.length;
    const count = own.length === 1 ? 'one sheet' : `${own.length} sheets`;
    const of = paper.count === null ? '' : ` of ${paper.count}`;
    return [`${paper.name}: ${count}${of}, ${Math.round(share * HUNDRED)} in ${HUNDRED} of it used.`];
  });
  return used.length === 0 ? ['No piece is laid.'] : used;
};
