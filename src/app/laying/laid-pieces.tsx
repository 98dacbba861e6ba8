import { memo, type ReactElement, useCallback, useEffect, useId, useRef } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import { boxOf, isInside } from '../../core/geometry/polygon.ts';
import { distance2, type Vec2 } from '../../core/geometry/vector.ts';
import { keyOf, type PieceToLay } from '../../core/layout/layout.ts';
import { sheetRing } from '../../core/layout/usable.ts';
import { rulerStep } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { onSheet } from '../stage/finish.ts';
import { followedIn, lookOf } from '../stage/prints.ts';
import { guidesOf } from './guides.ts';
import { hold, lock, nudge, putBack, settle, takeUp, toNextSheet, turn } from './hand.ts';
import { LaidPiece, type PieceHands } from './laid-piece.tsx';
import { type TableView, useLaying } from './laying-store.ts';
import { pieceTitle, sheetTitle } from './laying-words.ts';
import {
  isSamePiece,
  type Lying,
  lyingOn,
  middleOf,
  piecesByKey,
  ringAt,
  type Spot,
  spotOf,
  troublesOf,
  turnStep,
} from './lying.ts';
import { type Caught, type Surroundings, snap, snapTurn } from './snap.ts';
import type { LaidNow } from './use-laid.ts';

/** Pixels within which a piece under a hand is drawn to something. */
const CATCH = 9;
/** Radians within which a turn comes to rest along the sheet. */
const CATCH_TURN = 0.06;
/** Marks that an arrow key goes with Shift held. */
const STRIDE = 10;

interface LaidPiecesProps {
  readonly laid: LaidNow;
  readonly view: TableView;
}

/** Every piece on every sheet, to be taken up by a hand or by the keys. */
export const LaidPieces = memo(({ laid, view }: LaidPiecesProps): ReactElement => {
  const { production, pieces, sheets, loose } = laid;
  const { stock } = production.project;
  const style = useStyle();
  const inHand = useLaying((state) => state.inHand);
  const caught = useLaying((state) => state.caught);
  const hatch = useId();
  const order = lyingOn(sheets, pieces);
  const step = rulerStep(style.ruler);
  const cornerOf = ({ stock: paper, index }: Pick<Spot, 'stock' | 'index'>): Vec2 =>
    view.corners[sheets.findIndex((sheet) => sheet.stock === paper && sheet.index === index)] ?? [0, 0];
  const toPage = (spot: Pick<Spot, 'stock' | 'index'>, [x, y]: Vec2): Vec2 => {
    const [left, low] = cornerOf(spot);
    return [view.left + (left + x) * view.scale, view.top - (low + y) * view.scale];
  };

  /** What a piece is drawn to on a sheet. */
  const around = (piece: PieceToLay, spot: Spot): Surroundings | null => {
    const sheet = sheets.find((one) => one.stock === spot.stock && one.index === spot.index);
    const paper = stock[spot.stock];
    if (!sheet || !paper) return null;
    const others = sheet.placements.flatMap((one) => {
      const other = isSamePiece(one, piece) ? undefined : piecesByKey(pieces).get(keyOf(one));
      return other ? [ringAt(other.outline, one)] : [];
    });
    return {
      border: sheetRing(sheet),
      margin: paper.margin,
      gap: paper.gap,
      others,
      print: followedIn(lookOf(paper)),
    };
  };

  /** The sheet under a point of the table, or the one whose middle is nearest. */
  const sheetUnder = (point: Vec2): number => {
    const inside = sheets.findIndex((sheet, i) => {
      const [x, y] = view.corners[i] ?? [0, 0];
      return isInside([point[0] - x, point[1] - y], sheetRing(sheet));
    });
    if (inside >= 0) return inside;
    const away = sheets.map(({ width, height }, i) => {
      const [x, y] = view.corners[i] ?? [0, 0];
      const dx = Math.max(x - point[0], 0, point[0] - x - width);
      const dy = Math.max(y - point[1], 0, point[1] - y - height);
      return Math.hypot(dx, dy);
    });
    return away.indexOf(Math.min(...away));
  };

  /** A piece carried so far from where it was taken up, drawn to what is near unless the hand says no. */
  const carry = (piece: PieceToLay, from: Spot, by: Vec2, isFree: boolean): void => {
    const [left, low] = cornerOf(from);
    const moved = { ...from, x: from.x + by[0] / view.scale, y: from.y - by[1] / view.scale };
    const [middleX, middleY] = middleOf(ringAt(piece.outline, moved));
    const under = sheetUnder([left + middleX, low + middleY]);
    const sheet = sheets[under];
    const corner = view.corners[under];
    if (!sheet || !corner) return;
    const there: Spot = {
      stock: sheet.stock,
      index: sheet.index,
      x: moved.x + left - corner[0],
      y: moved.y + low - corner[1],
      rotation: from.rotation,
    };
    const near = isFree ? null : around(piece, there);
    if (near === null) {
      hold(piece, there);
      return;
    }
    const { shift, caught: by_ } = snap(
      ringAt(piece.outline, there),
      guidesAt(laid, piece, there),
      near,
      CATCH / view.scale,
    );
    hold(piece, { ...there, x: there.x + shift[0], y: there.y + shift[1] }, by_);
  };

  /** Turned by a hand that is at this angle about its middle, from where it was taken hold of. */
  const turnTo = (piece: PieceToLay, from: Spot, by: number, isFree: boolean): Spot => {
    const least = turnStep(stock[from.stock]?.direction ?? 'one-way') ?? 0;
    if (least === 0) return from;
    const middle = middleOf(ringAt(piece.outline, from));
    const about = (angle: number): Spot => {
      const turned = { ...from, rotation: from.rotation + angle };
      const now = middleOf(ringAt(piece.outline, turned));
      return { ...turned, x: turned.x + middle[0] - now[0], y: turned.y + middle[1] - now[1] };
    };
    if (least === Math.PI) return about(Math.round(by / Math.PI) * Math.PI);
    const along = isFree ? null : snapTurn(ringAt(piece.outline, about(by)), CATCH_TURN);
    return about(along === null ? Math.round(by / least) * least : by + along);
  };

  const handsOf = ({ piece, placement, stock: paper }: Lying): PieceHands => {
    const least = turnStep(stock[paper]?.direction ?? 'one-way');
    return {
      onTakeUp: () => takeUp(piece),
      onCarry: (by, from, isFree) => carry(piece, from, by, isFree),
      onTurn: (by, from, isFree) => hold(piece, turnTo(piece, from, by, isFree)),
      onLetGo: (gesture) => settle(gesture),
      onDrop: (from, wasStuck) => (wasStuck ? hold(piece, from) : putBack(piece)),
      onStep: (right, up, isStride) => {
        const far = step * (isStride ? STRIDE : 1);
        nudge(piece, right * far, up * far);
      },
      onTurnStep: (sign) => least !== null && turn(piece, sign * least),
      onLock: () => lock(piece, placement.locked !== true),
      onSheet: (by) => toNextSheet(piece, by),
      onPutBack: () => (loose.some(({ key }) => isSamePiece(key, piece)) ? putBack(piece) : takeUp(null)),
    };
  };
  // Pieces that stay are not drawn anew while another is moved: they ask for their hands when these are needed.
  const latest = useRef(handsOf);
  useEffect(() => {
    latest.current = handsOf;
  });
  const hands = useCallback((lying: Lying) => latest.current(lying), []);

  const first = order[0];
  return (
    <>
      <defs>
        <pattern id={hatch} patternUnits="userSpaceOnUse" width="9" height="9" patternTransform="rotate(45)">
          <path className="hatch-ground" d="M0 0h9v9H0z" />
          <path className="hatch-line" d="M0 0v9" />
        </pattern>
      </defs>
      {order.map((lying) => {
        const { piece, placement } = lying;
        const [x, y] = toPage(lying, [0, 0]);
        const isLoose = loose.some(({ key }) => isSamePiece(key, piece));
        const least = turnStep(stock[lying.stock]?.direction ?? 'one-way');
        return (
          <LaidPiece
            key={keyOf(piece)}
            piece={piece}
            placement={placement}
            stock={lying.stock}
            index={lying.index}
            x={x}
            y={y}
            scale={view.scale}
            title={pieceTitle(production, piece)}
            sheet={sheetTitle(production, lying)}
            style={style}
            isInHand={inHand !== null && isSamePiece(inHand, piece)}
            isFirst={inHand === null && lying === first}
            isStuck={isLoose && troublesOf(sheets, pieces, stock, piece).length > 0}
            canTurn={least !== null}
            hatch={hatch}
            handsOf={hands}
          />
        );
      })}
      {inHand !== null && <CaughtLines caught={caught} toPage={toPage} spot={spotOf(sheets, inHand)} />}
    </>
  );
});

/** The lines of a piece that a print is set to, where it lies. */
const guidesAt = ({ production }: LaidNow, { roof, layer, piece }: PieceToLay, spot: Spot) => {
  const made = production.roofs[roof];
  const cut = made && cutLayers(made)[layer];
  const found = cut?.net.pieces[piece];
  if (!cut || !found) return [];
  return guidesOf(cut.solid, found).map(({ kind, ends: [a, b] }) => ({
    kind,
    ends: [onSheet(spot, a), onSheet(spot, b)] as const,
  }));
};

const caughtWords: Readonly<Record<Caught['by'], string>> = {
  sheet: 'edge of the sheet',
  piece: 'edge to edge',
  print: 'on the print',
};

interface CaughtLinesProps {
  readonly caught: readonly Caught[];
  readonly spot: Spot | null;
  readonly toPage: (spot: Spot, p: Vec2) => Vec2;
}

/** What the piece under the hand has been drawn to. */
const CaughtLines = ({ caught, spot, toPage }: CaughtLinesProps): ReactElement | null => {
  if (spot === null) return null;
  return (
    <g className="caught">
      {caught.map(({ by, line }) => {
        const [a, b] = line.map((p) => toPage(spot, p)) as [Vec2, Vec2];
        const { minX, maxX, minY } = boxOf([a, b]);
        return (
          <g key={`${by} ${a.join()} ${b.join()}`}>
            <path className="caught-line" d={`M${a.join(' ')}L${b.join(' ')}`} />
            {distance2(a, b) > 60 && (
              <text className="caught-words" x={(minX + maxX) / 2} y={minY - 5}>
                {caughtWords[by]}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
};
