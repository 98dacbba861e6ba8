import { memo, type ReactElement } from 'react';
import { boxOf } from '../../core/geometry/polygon.ts';
import type { Issue } from '../../core/issue.ts';
import { keyOf, type PieceToLay } from '../../core/layout/layout.ts';
import { keepRest, restBeyondCut } from '../../core/layout/rest.ts';
import { ringsOn } from '../../core/materials.ts';
import { formatLength, fromDegrees, parseLength, toDegrees } from '../../core/units/units.ts';
import { bench, useBench, useStyle } from '../bench.ts';
import { sheetsWords } from '../draw/paper-words.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import { choiceField, type FieldSpec } from '../fields/field-spec.ts';
import { exactText } from '../fields/typed-text.ts';
import { unbroken } from '../guide/unbroken.ts';
import { IssueSentence } from '../issue-sentence.tsx';
import { hold, placedAt, settle, sheetsFor, takeUp, toSheet } from '../laying/hand.ts';
import { useLaying } from '../laying/laying-store.ts';
import { pieceTitle, sheetTitle } from '../laying/laying-words.ts';
import { isSamePiece, lyingOn, ringAt, type Spot, spotOf, turnAbout, turnStep } from '../laying/lying.ts';
import { countPositions, keepLocked, withPositions } from '../laying/positions.ts';
import { remediesFor } from '../laying/remedies.ts';
import { LONG, searchLong, stopSearch, useSearch } from '../laying/search.ts';
import { type LaidNow, useCalmLaid } from '../laying/use-laid.ts';
import { getAt, type Json, type JsonObject, setAt } from '../state/file-path.ts';
import { refuseText } from '../state/refuse-text.ts';

/** Paper, with the sheets on the table: how much paper it takes, how it is laid, and every piece in words. */
export const LayoutGroup = (): ReactElement | null => {
  const laid = useCalmLaid();
  if (laid === null) return null;
  return (
    <section className="group" aria-label="Laid on paper">
      <h3>Laid on paper</h3>
      {sheetsWords(laid.production).map((words) => (
        <p key={words}>{words}</p>
      ))}
      <NoPlace laid={laid} />
      <SearchKeys laid={laid} />
      <FieldPanel fields={ruleFields} />
      <PieceList laid={laid} />
      <Rests laid={laid} />
    </section>
  );
};

const ruleFields: readonly FieldSpec[] = [
  choiceField(
    ['layout', 'cuts'],
    'Cuts',
    [
      { value: 'free', label: 'Along the pieces' },
      { value: 'strips', label: 'Strips first' },
    ],
    'Strips: for a paper trimmer, straight cuts from edge to edge.',
  ),
  choiceField(
    ['layout', 'prefer'],
    'Save',
    [
      { value: 'sheets', label: 'Sheets' },
      { value: 'cheapest', label: 'Money' },
    ],
    'Money: the sheets that cost least together. Papers without a price come last.',
  ),
  choiceField(
    ['layout', 'offcuts'],
    'Offcuts',
    [
      { value: 'as-listed', label: 'As listed' },
      { value: 'first', label: 'First' },
    ],
    'Among the papers of a layer.',
  ),
];

const isNoPlace = ({ code }: Issue): boolean => code === 'piece-too-large' || code === 'stock-too-small';

/** Pieces that find no place, each with why, and what a key can do about it. */
const NoPlace = ({ laid }: { readonly laid: LaidNow }): ReactElement | null => {
  const { project, issues } = laid.production;
  const found = issues.filter(isNoPlace);
  if (found.length === 0) return null;
  return (
    <ul className="no-place">
      {found.slice(0, 4).map((issue) => (
        <li key={issue.path + issue.message}>
          <IssueSentence issue={issue} />
          <div className="keys">
            {remediesFor(issue, project).map(({ title, change }) => (
              <button key={title} type="button" className="key" onClick={() => bench.edit(change)}>
                {title}
              </button>
            ))}
          </div>
        </li>
      ))}
    </ul>
  );
};

/** What one straight cut leaves of each sheet, to be kept as paper. */
const Rests = memo(({ laid }: { readonly laid: LaidNow }): ReactElement | null => {
  const style = useStyle();
  const { production, sheets } = laid;
  const { project, roofs } = production;
  const rests = sheets.flatMap((sheet) => {
    const paper = project.stock[sheet.stock];
    const rings = ringsOn(roofs, sheet);
    const rest = paper && rings.length > 0 ? restBeyondCut(paper, rings) : null;
    return paper && rest ? [{ sheet, paper, rings, box: boxOf(rest) }] : [];
  });
  if (rests.length === 0) return null;
  return (
    <details>
      <summary>What is left over</summary>
      <ul className="rests">
        {rests.map(({ sheet, paper, rings, box }) => (
          <li key={`${sheet.stock} ${sheet.index}`}>
            {sheetTitle(production, sheet)}:{' '}
            {unbroken(`${formatLength(box.maxX - box.minX, style)} by ${formatLength(box.maxY - box.minY, style)}`)}{' '}
            <button
              type="button"
              className="link"
              onClick={() =>
                bench.edit((file) => {
                  const all = (getAt(file, ['stock']) ?? []) as readonly Json[];
                  const kept = keepRest(all[sheet.stock] as never, paper, rings, project);
                  return kept ? (setAt(file, ['stock'], [...all, kept as unknown as Json]) as JsonObject) : file;
                })
              }
            >
              Keep it as a paper<span className="unseen">: {sheetTitle(production, sheet)}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
});

/** What the search is doing, in words, and what can be asked of it. */
const SearchKeys = ({ laid }: { readonly laid: LaidNow }): ReactElement => {
  const { phase, isLong, share } = useSearch();
  const file = useBench((state) => state.file);
  const { all, locked } = countPositions(file);
  const isSearching = phase === 'searching';
  return (
    <>
      <p className="note" aria-live="polite">
        {isSearching
          ? `Looking for a better layout${isLong ? `, ${Math.max(0, Math.round(LONG * (1 - share)))} s to go` : ''}…`
          : `${phase === 'cut-short' ? 'The search for a better layout ended early. ' : ''}${positionWords(laid, all, locked)}`}
      </p>
      <div className="keys">
        {isSearching && isLong ? (
          <button key="stop" type="button" className="key" onClick={stopSearch}>
            Enough: keep this one
          </button>
        ) : (
          <button key="start" type="button" className="key" onClick={searchLong}>
            {locked > 0 ? 'Lay round what is locked' : 'Lay'}
          </button>
        )}
        {all > locked && !isSearching && (
          <button type="button" className="key" onClick={() => bench.edit(keepLocked)}>
            Leave it to the program
          </button>
        )}
        {locked > 0 && !isSearching && (
          <button type="button" className="key" onClick={() => bench.edit(unlockAll)}>
            Unlock all
          </button>
        )}
      </div>
    </>
  );
};

const unlockAll = (file: Parameters<typeof keepLocked>[0]): Parameters<typeof keepLocked>[0] => {
  const positions = Array.isArray(file['positions']) ? (file['positions'] as readonly Json[]) : [];
  return withPositions(
    file,
    positions.map((position) => setAt(position, ['locked'], undefined)),
  );
};

const positionWords = ({ production, pieces }: LaidNow, said: number, locked: number): string => {
  const { issues } = production;
  // Those that are of no use any more are told one by one.
  const all = said - issues.filter(({ path }) => path.startsWith('positions[')).length;
  if (all <= 0) return `${issues.some(isNoPlace) ? 'What finds room' : 'Every piece'} is laid by the program.`;
  const kept = all >= pieces.length ? 'Every piece stays' : all === 1 ? 'One piece stays' : `${all} pieces stay`;
  const held = locked === 0 ? '' : locked === 1 ? '; one is locked' : `; ${locked} are locked`;
  return `${kept} where the project says${held}.`;
};

/** Every piece in words, sheet by sheet; the one in hand with its place to be typed. */
const PieceList = memo(({ laid }: { readonly laid: LaidNow }): ReactElement => {
  const { production, pieces, sheets } = laid;
  const inHand = useLaying((state) => state.inHand);
  const chosen = inHand && pieces.find((piece) => isSamePiece(piece, inHand));
  const spot = chosen ? spotOf(sheets, chosen) : null;
  const lying = lyingOn(sheets, pieces);
  const order = lying.map(({ piece }) => piece);
  return (
    <div className="piece-list">
      <label>
        Piece in hand
        <select
          className="plain-field"
          value={chosen ? order.indexOf(chosen) : -1}
          onChange={(event) => takeUp(order[Number(event.target.value)] ?? null)}
        >
          <option value={-1}>None: press one, or choose…</option>
          {lying.map((one, i) => (
            <option key={keyOf(one.piece)} value={i}>
              {pieceTitle(production, one.piece)} ({sheetTitle(production, one)})
            </option>
          ))}
        </select>
      </label>
      {chosen && spot && <PlaceFields key={order.indexOf(chosen)} laid={laid} piece={chosen} spot={spot} />}
    </div>
  );
});

interface PlaceFieldsProps {
  readonly laid: LaidNow;
  readonly piece: PieceToLay;
  readonly spot: Spot;
}

/** Where the piece in hand lies, to be typed: from the left and the lower edge of its sheet, and how it is turned. */
const PlaceFields = ({ laid, piece, spot }: PlaceFieldsProps): ReactElement => {
  const { production } = laid;
  const { units } = useStyle();
  const { minX, minY } = boxOf(ringAt(piece.outline, spot));
  const step = turnStep(production.project.stock[spot.stock]?.direction ?? 'one-way');
  const to = (next: Spot): boolean => {
    hold(piece, next);
    settle();
    return true;
  };
  const length = (key: 'left' | 'low', label: string, mm: number): FieldSpec => ({
    key,
    label,
    path: ['in-hand', key],
    quantity: 'length',
    read: () => exactText(mm, units),
    write: (value) => {
      const read = parseLength(value as string | number, { negative: 'allow' });
      if (read.ok) return to(placedAt(piece, spot, { [key]: read.value }));
      return refuseText(
        ['in-hand', key],
        String(value ?? ''),
        'That is no length.',
        'Write one such as 1 1/2in or 38mm.',
      );
    },
  });
  const choices = sheetsFor(laid, piece);
  const fields: readonly FieldSpec[] = [
    {
      key: 'sheet',
      label: 'On',
      path: ['in-hand', 'sheet'],
      quantity: 'choice',
      choices: choices.map((one) => ({
        value: `${one.stock}/${one.index}`,
        label: `${sheetTitle(production, one)}${one.isNew ? ' (new)' : ''}`,
      })),
      read: () => `${spot.stock}/${spot.index}`,
      write: (value) => {
        const choice = choices.find((one) => `${one.stock}/${one.index}` === value);
        if (choice) toSheet(piece, choice);
        return true;
      },
    },
    length('left', 'From the left', minX),
    length('low', 'From below', minY),
    ...(step === null
      ? []
      : [
          {
            key: 'turn',
            label: 'Turned',
            help: 'Degrees, to the left.',
            path: ['in-hand', 'turn'],
            quantity: 'pitch',
            read: () => `${Number(toDegrees(spot.rotation).toFixed(3))}°`,
            write: (value) => {
              const degrees = Number.parseFloat(String(value));
              if (Number.isFinite(degrees))
                return to(turnAbout(piece.outline, spot, fromDegrees(degrees) - spot.rotation));
              return refuseText(
                ['in-hand', 'turn'],
                String(value ?? ''),
                'That is no angle.',
                'Write degrees such as 15.',
              );
            },
          } satisfies FieldSpec,
        ]),
  ];
  return <FieldPanel fields={fields} />;
};
