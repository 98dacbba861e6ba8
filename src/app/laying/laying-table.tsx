import { memo, type ReactElement, useEffect, useMemo, useState } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { sheetRing } from '../../core/layout/usable.ts';
import { gridWithRoom } from '../stage/desk.ts';
import { canDrawStage } from '../stage/probe.ts';
import { captionOf } from '../stage/sheet-caption.ts';
import { useSize } from '../use-size.ts';
import { LaidPieces } from './laid-pieces.tsx';
import { LayingCard } from './laying-card.tsx';
import { laying, lookAtAll, type TableView, useLaying } from './laying-store.ts';
import { PaperFills, paperFill } from './paper-fills.tsx';
import { passToTable } from './to-the-table.ts';
import { type LaidNow, useCalmLaid } from './use-laid.ts';

/** Pixels left free round flat sheets, and between them for their captions. */
const ROOM = 14;
const CAPTION = 42;
/** Of a line of a caption, pixels. */
const LINE = 15;

/** Where flat sheets lie in a box of this size. */
const flatView = ({ sheets }: LaidNow, width: number, height: number): TableView | null => {
  if (width === 0 || sheets.length === 0) return null;
  const [across, up] = [Math.max(40, width - 2 * ROOM), Math.max(40, height - 2 * ROOM - CAPTION)];
  const pointOf = (w: number, h: number): number => Math.max(w / across, h / up);
  const grid = gridWithRoom(sheets, across / up, CAPTION, pointOf);
  const scale = 1 / pointOf(grid.width, grid.height);
  return {
    scale,
    left: ROOM + (across - grid.width * scale) / 2,
    top: ROOM + grid.height * scale,
    corners: grid.corners,
  };
};

/**
 * The pieces on the sheets under a hand: over the table where it is drawn in 3D, otherwise with the sheets drawn flat. A piece is taken
 * up by a press or with Enter; then it follows the hand or the arrow keys.
 */
export const LayingTable = (): ReactElement => {
  const laid = useCalmLaid();
  const seen = useLaying((state) => state.view);
  const [isDrawn] = useState(canDrawStage);
  const isFlat = useLaying((state) => state.isFlat) || !isDrawn;
  const isLookedRound = useLaying((state) => state.isLookedRound);
  const { ref, width, height } = useSize<HTMLDivElement>();
  const flat = useMemo(
    () => (laid === null || !isFlat ? null : flatView(laid, width, height)),
    [laid, isFlat, width, height],
  );
  const view = isFlat ? flat : seen;

  // Another place, and nothing is held any more.
  useEffect(() => () => laying.setState({ inHand: null, loose: [], moving: null, from: null, caught: [] }), []);
  useEffect(() => {
    const area = ref.current?.closest('.stage-area');
    return area ? passToTable(area) : undefined;
  }, [ref]);

  return (
    <section className={`laying ${isFlat ? 'is-flat' : ''}`} aria-label="Pieces on their sheets">
      <div ref={ref} className="laying-room">
        {laid !== null && view !== null && view.corners.length >= laid.sheets.length && (
          <svg className="laying-drawing" width="100%" height="100%" role="presentation">
            {isFlat && <FlatSheets laid={laid} view={view} />}
            <LaidPieces laid={laid} view={view} />
          </svg>
        )}
      </div>
      {laid !== null && (
        <div className="laying-foot">
          {isLookedRound && !isFlat && (
            <button type="button" className="key all-sheets" onClick={lookAtAll}>
              All sheets from above
            </button>
          )}
          <LayingCard laid={laid} isTilted={view === null} isFlat={isFlat} />
        </div>
      )}
    </section>
  );
};

const FlatSheets = memo(({ laid, view }: { readonly laid: LaidNow; readonly view: TableView }): ReactElement => {
  const { production, sheets } = laid;
  const { stock } = production.project;
  return (
    <g className="flat-sheets">
      <PaperFills sheets={sheets} stock={stock} view={view} />
      {sheets.map((sheet, i) => {
        const corner = view.corners[i] ?? [0, 0];
        const toPage = ([x, y]: Vec2): string =>
          `${view.left + (corner[0] + x) * view.scale} ${view.top - (corner[1] + y) * view.scale}`;
        return (
          <g key={`${sheet.stock} ${sheet.index}`}>
            <path
              className="flat-sheet"
              d={`M${sheetRing(sheet).map(toPage).join('L')}Z`}
              style={{ fill: paperFill(i) }}
            />
            {captionOf(stock[sheet.stock]?.name ?? 'Paper', sheet.index, sheet.width * view.scale).map((line, l) => (
              <text
                key={line}
                className="flat-caption"
                x={view.left + corner[0] * view.scale}
                y={view.top - corner[1] * view.scale + (l + 1) * LINE}
              >
                {line}
              </text>
            ))}
          </g>
        );
      })}
    </g>
  );
});
