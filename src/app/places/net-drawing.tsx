import { type ReactElement, useMemo } from 'react';
import { formatLength } from '../../core/units/units.ts';
import { useChosenRoof, useStyle } from '../bench.ts';
import { type FlowSpace, flowPieces } from '../draw/flow-pieces.ts';
import { netFigures, type PieceFigure } from '../draw/net-figure.ts';
import { useSize } from '../use-size.ts';
import { PieceDrawing } from './piece-drawing.tsx';

/** Free pixels round each piece for what stands outside it: numbers, and along the eaves of a piece of several panels names. */
const roomFor = (hasNames: boolean): FlowSpace['room'] =>
  hasNames ? { left: 44, right: 44, top: 30, bottom: 52 } : { left: 30, right: 30, top: 18, bottom: 58 };

/** The net of one layer flat, at one scale for all pieces: as large as it can be seen at once, never unreadably small. */
export const NetDrawing = ({ layer = 0 }: { readonly layer?: number }): ReactElement => {
  const roof = useChosenRoof();
  const style = useStyle();
  const { ref, width, height } = useSize<HTMLElement>();
  const made = roof?.made?.layers[layer] ?? roof?.made?.layers[0];
  const figures = useMemo(() => (made === undefined ? [] : netFigures(made.solid, made.net)), [made]);
  const flow = useMemo(() => {
    if (width === 0 || figures.length === 0) return null;
    const pieces = figures.map((figure) => figure.piece);
    const least = Math.max(0.5, ...figures.map(readableScale));
    const room = roomFor(figures.some((figure) => figure.names.length > 0));
    const space = { width: width - 16, height: height - 24, room, least, most: 9 };
    return flowPieces(pieces, space);
  }, [figures, width, height]);

  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling drawing has to be reached by keyboard.
    <section ref={ref} className="sheet-body" tabIndex={0} aria-label="The net, flat">
      {flow === null ? (
        <p className="sheet-body is-padded">
          {roof !== null && roof.made === null ? 'This roof cannot be laid flat yet.' : ''}
        </p>
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
                <PieceDrawing
                  figure={figure}
                  scale={flow.scale}
                  show={(mm) => formatLength(mm, style)}
                  names={figures}
                />
              </g>
            );
          })}
        </svg>
      )}
    </section>
  );
};

/** Pixels per mm at which a panel's numbers keep clear of each other: a slender one needs width, a low one height. */
const readableScale = ({ measures }: PieceFigure): number => {
  const longest = (kind: 'outside' | 'fall'): number =>
    Math.max(0, ...measures.map((one) => (one.kind === kind ? one.length : 0)));
  const [eave, fall] = [longest('outside'), longest('fall')];
  if (eave === 0 || fall === 0) return 0;
  // A panel of two equal sides may leave one of their numbers out.
  const hasTwin = measures.some((one) => one.isTwin);
  return eave < 1.2 * fall ? (hasTwin ? 116 : 165) / eave : (hasTwin ? 72 : 110) / fall;
};
