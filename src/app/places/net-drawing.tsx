import { type ReactElement, useMemo } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { formatLength } from '../../core/units/units.ts';
import { bench, useBench, useChosenRoof, useStyle } from '../bench.ts';
import { type Flow, type FlowSpace, flowPieces } from '../draw/flow-pieces.ts';
import { litParts, nearestEdge, panelSides } from '../draw/lit-lines.ts';
import { netFigures, type PieceFigure } from '../draw/net-figure.ts';
import { useSize } from '../use-size.ts';
import { LitOnPiece } from './lit-on-piece.tsx';
import { PieceDrawing, textLength } from './piece-drawing.tsx';

/** How near an edge a point has to be to mean it, pixels. */
const REACH = 14;

/** Where each piece's upper left corner is drawn, pixels: what is low stands in the middle of the sheet. */
const spotsOf = ({ spots, height: used }: Flow, height: number): readonly Vec2[] => {
  const drop = Math.max(0, (height - used - 16) / 2);
  return spots.map(([x, y]): Vec2 => [x + 8, y + 12 + drop]);
};

/** Free pixels round each piece for what stands outside it: numbers, and along the eaves of a piece of several panels names. */
const roomFor = (hasNames: boolean): FlowSpace['room'] =>
  hasNames ? { left: 44, right: 44, top: 30, bottom: 52 } : { left: 30, right: 30, top: 18, bottom: 70 };

/** The net of one layer flat, at one scale for all pieces: as large as it can be seen at once, never unreadably small. */
export const NetDrawing = ({ layer: asked }: { readonly layer?: number }): ReactElement => {
  const roof = useChosenRoof();
  const style = useStyle();
  const { ref, width, height } = useSize<HTMLElement>();
  const layers = roof === null ? [] : cutLayers(roof);
  const lit = useBench((state) => (state.lit?.roof === state.selected ? state.lit.place : null));
  const edgeAtHand = useBench((state) => (state.edgeAtHand?.roof === state.selected ? state.edgeAtHand : null));
  // Where no layer is asked for, the one that something is lit on.
  const layer = asked ?? lit?.layer ?? edgeAtHand?.layer ?? 0;
  const made = layers[layer] ?? layers[0];
  const figures = useMemo(() => (made === undefined ? [] : netFigures(made.solid, made.net)), [made]);
  const sides = useMemo(() => (made === undefined ? [] : panelSides(made.solid, made.net)), [made]);
  const marks = useMemo(() => {
    if (made === undefined) return [];
    const { solid, net } = made;
    return [
      ...(lit === null || (lit.layer !== undefined && lit.layer !== layer)
        ? []
        : [{ className: 'is-lit', parts: litParts(solid, net, lit) }]),
      ...(edgeAtHand === null || edgeAtHand.layer !== layer
        ? []
        : [{ className: 'is-at-hand', parts: litParts(solid, net, { edges: [edgeAtHand.edge] }) }]),
    ];
  }, [made, lit, edgeAtHand, layer]);
  const flow = useMemo(() => {
    if (width === 0 || figures.length === 0) return null;
    const pieces = figures.map((figure) => figure.piece);
    const least = Math.max(0.5, ...figures.map((figure) => readableScale(figure, (mm) => formatLength(mm, style))));
    const room = roomFor(figures.some((figure) => figure.names.length > 0));
    const space = { width: width - 16, height: height - 24, room, least, most: 9 };
    return flowPieces(pieces, space);
  }, [figures, width, height, style]);

  /** A click or tap means the edge nearest to it; off every edge none is at hand any more. */
  const pointAt = (p: Vec2, spots: readonly Vec2[]): void => {
    if (made === undefined || flow === null) return;
    const found = figures.flatMap(({ piece }, i) => {
      const [x, y] = spots[i] ?? [0, 0];
      const local: Vec2 = [(p[0] - x) / flow.scale, piece.height - (p[1] - y) / flow.scale];
      const edge = nearestEdge(sides, { piece: i }, local, REACH / flow.scale);
      return edge === null ? [] : [edge];
    });
    const id = made.solid.edges[found[0] ?? -1]?.id;
    const { selected } = bench.store.getState();
    const at = layers.indexOf(made);
    bench.store.setState({ edgeAtHand: id === undefined ? null : { roof: selected, layer: at, edge: id } });
  };

  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling drawing has to be reached by keyboard.
    <section ref={ref} className="sheet-body" tabIndex={0} aria-label="The net, flat">
      {flow === null ? (
        <p className="sheet-body is-padded">
          {roof !== null && roof.made === null ? 'This roof cannot be laid flat yet.' : ''}
        </p>
      ) : (
        // biome-ignore lint/a11y/useKeyWithClickEvents: for the keyboard Paper has a list of the edges.
        <svg
          className="net"
          width={width}
          height={Math.max(flow.height + 16, height)}
          role="img"
          onClick={(event) => {
            const box = event.currentTarget.getBoundingClientRect();
            pointAt([event.clientX - box.left, event.clientY - box.top], spotsOf(flow, height));
          }}
          aria-label={`Net of ${roof?.spec.title ?? 'the roof'}: ${figures.length} pieces`}
        >
          {figures.map((figure, i) => {
            const [x, y] = spotsOf(flow, height)[i] ?? [0, 0];
            return (
              <g key={figure.piece.id} transform={`translate(${x} ${y})`}>
                <PieceDrawing
                  figure={figure}
                  scale={flow.scale}
                  show={(mm) => formatLength(mm, style)}
                  names={figures}
                />
                {marks.map(({ className, parts }) => (
                  <LitOnPiece
                    key={className}
                    className={className}
                    parts={parts}
                    piece={figure.piece}
                    index={i}
                    scale={flow.scale}
                  />
                ))}
              </g>
            );
          })}
        </svg>
      )}
    </section>
  );
};

/** Pixels per mm at which a panel's numbers keep clear of each other: a slender one needs width, a low one height. */
const readableScale = ({ measures }: PieceFigure, show: (mm: number) => string): number => {
  const longest = (kind: 'outside' | 'fall'): number =>
    Math.max(0, ...measures.map((one) => (one.kind === kind ? one.length : 0)));
  const [eave, fall] = [longest('outside'), longest('fall')];
  if (eave === 0 || fall === 0) return 0;
  // A panel of two equal sides may leave one of their numbers out.
  const hasTwin = measures.some((one) => one.isTwin);
  if (eave >= 1.2 * fall) return (hasTwin ? 72 : 110) / fall;
  if (hasTwin) return 116 / eave;
  // Where the number up the middle ends, there is room for it and for one along a fold.
  return Math.max(165, 72 + ((textLength(show(fall)) + 13) * eave) / fall) / eave;
};
