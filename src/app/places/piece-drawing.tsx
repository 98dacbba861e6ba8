import type { ReactElement } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { Measure, PieceFigure } from '../draw/net-figure.ts';

interface PieceDrawingProps {
  readonly figure: PieceFigure;
  /** Pixels per mm. */
  readonly scale: number;
  readonly show: (mm: number) => string;
  /** All figures of the net: to name the piece that a later one is like. */
  readonly names: readonly PieceFigure[];
}

/** Pixels between an edge and the middle of its number. */
const OFF_EDGE = 12;
const OFF_EAVE = 15;

/** One piece with its lines, measures and letters. Drawn in pixels, y down; the piece's frame is mm, y up. */
export const PieceDrawing = ({ figure, scale, show, names }: PieceDrawingProps): ReactElement => {
  const { piece, measures, marks } = figure;
  const see = ([x, y]: Vec2): Vec2 => [x * scale, (piece.height - y) * scale];
  const path = (points: readonly Vec2[], isClosed = true): string =>
    `M${points.map((p) => see(p).map((n) => n.toFixed(2)).join(' ')).join('L')}${isClosed ? 'Z' : ''}`;
  const like = names.find((one) => one.piece.id === piece.same)?.piece.title;
  const below = piece.height * scale + 44;

  return (
    <>
      <path className="flap-fill" d={path(piece.outline)} />
      {piece.panels.map((panel) => (
        <path key={panel.face} className="fill" d={path(panel.polygon)} />
      ))}
      {measures
        .filter((measure) => measure.kind === 'fall')
        .map((measure) => (
          <path key="fall" className="line-measure" strokeDasharray="1 4" d={path(measure.ends, false)} />
        ))}
      {piece.flaps.map((flap) => (
        <path key={`flap ${flap.edge}`} className={`line-${flap.kind}`} d={path(flap.polygon.slice(0, 2), false)} />
      ))}
      {piece.folds.map((fold) => (
        <path key={`fold ${fold.edge}`} className={`line-${fold.kind}`} d={path(fold.ends, false)} />
      ))}
      {piece.glueLines.map((line) => (
        <path key={`glue ${line.edge} ${line.panel}`} className="line-glue" d={path(line.ends, false)} />
      ))}
      <path className="line-cut" d={path(piece.outline)} />
      {measures.map((measure) => (
        <Number key={measure.kind + measure.ends.flat().join(' ')} measure={measure} see={see} text={show(measure.length)} />
      ))}
      {marks.map((mark) => {
        const [x, y] = see(mark.at);
        return (
          <text key={mark.letter + mark.at.join(' ')} className="match on-panel" x={x + mark.side[0] * 13} y={y - mark.side[1] * 13 + 5}>
            {mark.letter}
          </text>
        );
      })}
      {figure.names.map((name) => (
        <text key={name.title} className="piece-name on-panel" x={see(name.at)[0]} y={see(name.at)[1] + 5}>
          {name.title}
        </text>
      ))}
      {figure.names.length === 0 && (
        <text x={(piece.width * scale) / 2} y={below}>
          <tspan className="piece-name">{piece.title}</tspan>
          {like !== undefined && <tspan> · same as {like}</tspan>}
        </text>
      )}
    </>
  );
};

interface NumberProps {
  readonly measure: Measure;
  readonly see: (p: Vec2) => Vec2;
  readonly text: string;
}

/** A measure's number along its line, never upside down; outside an eave it gets a line of its own with ends. */
const Number = ({ measure, see, text }: NumberProps): ReactElement => {
  const [a, b] = [see(measure.ends[0]), see(measure.ends[1])];
  const side: Vec2 = [measure.side[0], -measure.side[1]];
  const low = a[1] > b[1] ? a : b;
  const high = low === a ? b : a;
  // Slanted numbers stand a little below the middle: panels narrow towards the top.
  const share = measure.kind === 'eave' ? 0.5 : measure.kind === 'fall' ? 0.34 : 0.47;
  const off = measure.kind === 'eave' ? OFF_EAVE : measure.kind === 'fall' ? 9 : OFF_EDGE;
  const x = low[0] + (high[0] - low[0]) * share + side[0] * off;
  const y = low[1] + (high[1] - low[1]) * share + side[1] * off;
  let turn = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  if (turn > 90) turn -= 180;
  if (turn <= -90) turn += 180;
  return (
    <>
      {measure.kind === 'eave' && <Span a={a} b={b} side={side} />}
      <text className={measure.kind === 'eave' ? '' : 'on-panel'} transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(1)})`} y={4.5}>
        {text}
      </text>
    </>
  );
};

/** The line of an outside measure with a short stroke at each end. */
const Span = ({ a, b, side }: { readonly a: Vec2; readonly b: Vec2; readonly side: Vec2 }): ReactElement => {
  const out = (p: Vec2, by: number): string => `${(p[0] + side[0] * by).toFixed(1)} ${(p[1] + side[1] * by).toFixed(1)}`;
  return <path className="line-measure" d={`M${out(a, 4)}L${out(a, 20)}M${out(b, 4)}L${out(b, 20)}M${out(a, 15)}L${out(b, 15)}`} />;
};
