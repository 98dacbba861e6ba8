import type { ReactElement } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Piece } from '../../core/net/net.ts';
import type { LitParts } from '../draw/lit-lines.ts';

interface LitOnPieceProps {
  readonly piece: Piece;
  readonly index: number;
  /** Pixels per mm. */
  readonly scale: number;
  readonly parts: LitParts;
  readonly className: string;
}

/** What is lit of one piece, over its drawing. */
export const LitOnPiece = ({ piece, index, scale, parts, className }: LitOnPieceProps): ReactElement => {
  const text = (points: readonly Vec2[]): string =>
    `M${points.map(([x, y]) => `${(x * scale).toFixed(1)} ${((piece.height - y) * scale).toFixed(1)}`).join('L')}`;
  return (
    <g className={className}>
      {parts.panels
        .filter((one) => one.piece === index)
        .map(({ panel }) => (
          <path key={panel} className="lit-panel" d={`${text(piece.panels[panel]?.polygon ?? [])}Z`} />
        ))}
      {parts.sides
        .filter((one) => one.piece === index)
        .map(({ ends }) => (
          <path key={ends.flat().join(' ')} className="lit-line" d={text(ends)} />
        ))}
    </g>
  );
};
