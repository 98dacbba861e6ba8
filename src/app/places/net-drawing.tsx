import { type ReactElement, useMemo } from 'react';
import { formatLength } from '../../core/units/units.ts';
import { useChosenRoof, useStyle } from '../bench.ts';
import { type FlowSpace, flowPieces } from '../draw/flow-pieces.ts';
import { netFigures } from '../draw/net-figure.ts';
import { useSize } from '../use-size.ts';
import { PieceDrawing } from './piece-drawing.tsx';

/** Free pixels round each piece for what stands outside it: numbers, and along the eaves of a piece of several panels names. */
const roomFor = (hasNames: boolean): FlowSpace['room'] =>
  hasNames ? { left: 44, right: 44, top: 30, bottom: 52 } : { left: 30, right: 30, top: 18, bottom: 58 };

/** The net of one layer flat, at one scale for all pieces: as large as it can be seen at once, never unreadably small. */
export const NetDrawing = ({ layer = 0 }: { readonly layer?: number }): ReactElement => {
  const roof = useChosenRoof();
  const style = useStyle();
  const { ref, width, height } = useSize<HTMLDivElement>();
  const made = roof?.made?.layers[layer] ?? roof?.made?.layers[0];
  const figures = useMemo(() => (made === undefined ? [] : netFigures(made.solid, made.net)), [made]);
  const flow = useMemo(() => {
    if (width === 0 || figures.length === 0) return null;
    const pieces = figures.map((figure) => figure.piece);
    const narrowest = Math.min(...pieces.flatMap((piece) => piece.panels.map((panel) => panelWidth(panel.polygon))));
    const room = roomFor(figures.some((figure) => figure.names.length > 0));
    const space = { width: width - 16, height: height - 24, room, least: 84 / narrowest, most: 9 };
    return flowPieces(pieces, space);
  }, [figures, width, height]);

  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling drawing has to be reached by keyboard.
    <div ref={ref} className="sheet-body" tabIndex={0} role="group" aria-label="The net, flat">
      {flow === null ? (
        <p className="sheet-body is-padded">{roof !== null && roof.made === null ? 'This roof cannot be laid flat yet.' : ''}</p>
      ) : (
        <svg
          className="net"
          width={width}
          height={Math.max(flow.height + 16, height)}
          role="img"
          aria-label={`Net of ${roof?.spec.title ?? 'the roof'}: ${figures.length} pieces`}
        >
          {figures.map((figure, i) => {
            const [x, y] = flow.spots[i] ?? [0, 0];
            const drop = Math.max(0, (height - flow.height - 16) / 2);
            return (
              <g key={figure.piece.id} transform={`translate(${x + 8} ${y + 12 + drop})`}>
                <PieceDrawing figure={figure} scale={flow.scale} show={(mm) => formatLength(mm, style)} names={figures} />
              </g>
            );
          })}
        </svg>
      )}
    </div>
  );
};

const panelWidth = (polygon: readonly (readonly [number, number])[]): number => {
  const longest = Math.max(
    ...polygon.map((p, i) => {
      const q = polygon[(i + 1) % polygon.length] ?? p;
      return Math.hypot(q[0] - p[0], q[1] - p[1]);
    }),
  );
  // Across its longest side a panel is about as wide as its area over that side.
  const area = polygon.reduce((sum, p, i) => {
    const q = polygon[(i + 1) % polygon.length] ?? p;
    return sum + (p[0] * q[1] - q[0] * p[1]) / 2;
  }, 0);
  return Math.max(longest / 4, (2 * Math.abs(area)) / longest);
};
