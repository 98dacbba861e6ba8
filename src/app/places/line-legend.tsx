import type { ReactElement } from 'react';
import type { Net } from '../../core/net/net.ts';

/** How the lines are told apart; only those that this net has. */
export const LineLegend = ({ net }: { readonly net: Net }): ReactElement => {
  const kinds = new Set(
    net.pieces.flatMap((piece) =>
      [...piece.folds, ...piece.flaps, ...piece.hems].flatMap(({ kind, angle }) => (angle > 0 ? [kind] : [])),
    ),
  );
  const hasGlueLines = net.pieces.some((piece) => piece.glueLines.length > 0);
  const line = (name: string, title: string): ReactElement => (
    <li>
      <svg viewBox="0 0 44 10" aria-hidden="true">
        <path className={`line-${name}`} d="M0 5h44" />
      </svg>
      {title}
    </li>
  );
  return (
    <ul className="legend" aria-label="Lines">
      {line('cut', 'cut')}
      {kinds.has('mountain') && line('mountain', 'fold away from you')}
      {kinds.has('valley') && line('valley', 'fold towards you')}
      {net.pieces.some((piece) => piece.rulings.length > 0) && line('ruling', 'roll about it, without a score')}
      {hasGlueLines && line('glue', 'glue along, on the inside')}
      <li>
        <span className="letter">A</span> meets the other A
      </li>
    </ul>
  );
};
