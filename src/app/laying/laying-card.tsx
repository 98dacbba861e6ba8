import type { ReactElement } from 'react';
import { formatLength, toDegrees } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { lock, putBack, sheetsFor, takeUp, toSheet, turn } from './hand.ts';
import { useLaying } from './laying-store.ts';
import { pieceTitle, placeWords, sheetTitle, troubleWords } from './laying-words.ts';
import { isSamePiece, spotOf, troublesOf, turnStep } from './lying.ts';
import type { LaidNow } from './use-laid.ts';

interface LayingCardProps {
  readonly laid: LaidNow;
  /** The table is looked at aslant: pieces cannot be taken hold of. */
  readonly isTilted: boolean;
  /** The sheets are drawn flat, as large as they are. */
  readonly isFlat: boolean;
}

/** On a slip of card by the table: the piece in hand, where it lies or why it cannot, and what else can be done with it. */
export const LayingCard = ({ laid, isTilted, isFlat }: LayingCardProps): ReactElement => {
  const { production, pieces, sheets, loose } = laid;
  const style = useStyle();
  const inHand = useLaying((state) => state.inHand);
  const piece = inHand && pieces.find((one) => isSamePiece(one, inHand));
  const spot = piece ? spotOf(sheets, piece) : null;
  if (!piece || !spot)
    return (
      <p className="laying-hint" aria-live="polite">
        {isTilted ? (
          'Looked at from straight above, pieces can be moved.'
        ) : (
          <>
            Press a piece to move it{isFlat ? '.' : '; two fingers or the wheel bring it nearer.'}{' '}
            <span className="by-keys">
              By keys: Enter, then the arrows; R turns, L locks, Page Down is the next sheet.
            </span>
          </>
        )}
      </p>
    );
  const show = (mm: number): string => formatLength(mm, style);
  const { stock } = production.project;
  const isLoose = loose.some(({ key }) => isSamePiece(key, piece));
  const troubles = isLoose ? troublesOf(sheets, pieces, stock, piece) : [];
  const step = turnStep(stock[spot.stock]?.direction ?? 'one-way');
  const fresh = sheetsFor(laid, piece).find(({ isNew }) => isNew);
  return (
    <section className={`laying-card ${troubles.length > 0 ? 'is-stuck' : ''}`} aria-label="The piece in hand">
      <div className="laying-words" aria-live="polite">
        <h2>{pieceTitle(production, piece)}</h2>
        <p className="where">
          {sheetTitle(production, spot)}: {placeWords(piece, spot, show)}
          {spot.locked ? ', locked.' : '.'}
        </p>
        {troubles.slice(0, 2).map((trouble) => (
          <p key={`${trouble.kind} ${JSON.stringify(trouble.other)}`} className="trouble">
            {troubleWords(trouble, pieces, production, show)}
          </p>
        ))}
      </div>
      <div className="keys">
        {step === null ? null : (
          <button type="button" className="key" onClick={() => turn(piece, -step)}>
            Turn {Math.round(toDegrees(step))}°
          </button>
        )}
        {fresh && (
          <button type="button" className="key" onClick={() => toSheet(piece, fresh)}>
            New sheet
          </button>
        )}
        {isLoose ? (
          <button type="button" className="key" onClick={() => putBack(piece)}>
            Put it back
          </button>
        ) : (
          <button type="button" className="key" aria-pressed={spot.locked} onClick={() => lock(piece, !spot.locked)}>
            {spot.locked ? 'Unlock' : 'Lock here'}
          </button>
        )}
        <button type="button" className="key" onClick={() => takeUp(null)}>
          Put down
        </button>
      </div>
    </section>
  );
};
