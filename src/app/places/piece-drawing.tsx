import type { ReactElement } from 'react';
import { add2, lerp2, scale2, type Vec2 } from '../../core/geometry/vector.ts';
import { LETTER_AT, letterPlaces } from '../draw/letter-places.ts';
import type { Measure, PieceFigure } from '../draw/net-figure.ts';

interface PieceDrawingProps {
  readonly figure: PieceFigure;
  /** Pixels per mm. */
  readonly scale: number;
  readonly show: (mm: number) => string;
  /** All figures of the net: to name the piece that a later one is like. */
  readonly names: readonly PieceFigure[];
}

/** One piece with its lines, measures and letters. Drawn in pixels, y down; the piece's frame is mm, y up. */
export const PieceDrawing = ({ figure, scale, show, names }: PieceDrawingProps): ReactElement => {
  const { piece, measures, marks } = figure;
  const see = ([x, y]: Vec2): Vec2 => [x * scale, (piece.height - y) * scale];
  const path = (points: readonly Vec2[], isClosed = true): string =>
    `M${points
      .map((p) =>
        see(p)
          .map((n) => n.toFixed(2))
          .join(' '),
      )
      .join('L')}${isClosed ? 'Z' : ''}`;
  const like = names.find((one) => one.piece.id === piece.same)?.piece.title;
  const longest = (kind: Measure['kind']): number =>
    Math.max(0, ...measures.map((one) => (one.kind === kind ? one.length * scale : 0)));
  // Two numbers and a third up the middle need this many pixels of eave, and of panel.
  const hasRoom = longest('outside') > 140 && longest('fall') > 120;
  /** A number that would run into letters or lines is left to Set out. */
  const fits = ({ kind, length }: Measure, text: string): boolean => {
    if (kind === 'outside') return true;
    if (kind === 'inside') return textLength(text) + 44 < length * scale;
    return !standsLevel(text, length * scale) || textLength(text) + 56 < 0.8 * longest('outside');
  };
  const letters = letterPlaces(
    marks.map(({ ends, side, panel }) => ({
      ends: [see(ends[0]), see(ends[1])],
      side: [side[0], -side[1]],
      panel: panel.map(see),
    })),
  );
  const below = piece.height * scale + 44;

  return (
    <>
      <path className="flap-fill" d={path(piece.outline)} />
      {piece.panels.map((panel) => (
        <path key={panel.face} className="fill" d={path(piece.board ? piece.outline : panel.polygon)} />
      ))}
      {measures
        .filter((measure) => measure.kind === 'fall')
        .map((measure) => (
          <path key="fall" className="line-measure" strokeDasharray="1 4" d={path(measure.ends, false)} />
        ))}
      {[...piece.flaps, ...piece.hems].map(({ edge, kind, polygon, base }) => (
        <path
          key={`flap ${edge} ${polygon[0]}`}
          className={`line-${kind}`}
          d={path(polygon.slice(0, base + 1), false)}
        />
      ))}
      {piece.folds
        .filter((fold) => fold.angle > 0)
        .map((fold) => (
          <path key={`fold ${fold.edge}`} className={`line-${fold.kind}`} d={path(fold.ends, false)} />
        ))}
      {piece.rulings.map(({ ends }) => (
        <path key={`ruling ${ends.flat().join(' ')}`} className="line-ruling" d={path(ends, false)} />
      ))}
      {piece.glueLines.map((line) => (
        <path key={`glue ${line.edge} ${line.panel}`} className="line-glue" d={path(line.ends, false)} />
      ))}
      <path className="line-cut" d={path(piece.outline)} />
      {measures
        .filter((measure) => (!measure.isTwin || hasRoom) && fits(measure, show(measure.length)))
        .map((measure) => (
          <MeasureText
            key={measure.kind + measure.ends.flat().join(' ')}
            measure={measure}
            see={see}
            scale={scale}
            text={show(measure.length)}
          />
        ))}
      {letters.map(({ at: [x, y], size }, i) => (
        <text
          // biome-ignore lint/suspicious/noArrayIndexKey: the letters of a piece keep their order.
          key={i}
          className="match on-panel"
          style={{ fontSize: size, strokeWidth: size / 4 }}
          x={x}
          y={y + size / 3}
        >
          {marks[i]?.letter}
        </text>
      ))}
      {figure.names.map((name) => {
        const [a, b] = [see(name.ends[0]), see(name.ends[1])];
        const room = Math.hypot(b[0] - a[0], b[1] - a[1]);
        return (
          <Along
            key={name.title}
            a={a}
            b={b}
            side={[name.side[0], -name.side[1]]}
            share={0.5}
            off={(name.isBehindMeasure ? 34 : 15) + name.hem * scale}
            className="piece-name"
            text={nameThatFits(name.title, room)}
          />
        );
      })}
      {figure.names.length === 0 && (
        <text x={(piece.width * scale) / 2} y={below}>
          <tspan className="piece-name">{piece.title}</tspan>
          {like !== undefined &&
            // Beside its name where a neighbour leaves room for it, otherwise under it.
            (textLength(`${piece.title} · same as ${like}`) < piece.width * scale + NAME_ROOM ? (
              <tspan> · same as {like}</tspan>
            ) : (
              <tspan x={(piece.width * scale) / 2} dy={17}>
                same as {like}
              </tspan>
            ))}
        </text>
      )}
    </>
  );
};

interface MeasureTextProps {
  readonly measure: Measure;
  readonly see: (p: Vec2) => Vec2;
  readonly scale: number;
  readonly text: string;
}

/** Pixels beside a piece that its name may take. */
const NAME_ROOM = 44;

/** Pixels that a number takes along its line. */
export const textLength = (text: string): number => text.length * 7.4;

/** Up the middle of a low panel there is no room along the line: the number stands across it. */
const standsLevel = (text: string, pixels: number): boolean => textLength(text) + 20 > 0.66 * pixels;

/** Slanted numbers stand above the letters; one up the middle stands low, where panels are widest. */
const shareOf = (kind: Measure['kind'], text: string, pixels: number): number => {
  if (kind === 'outside') return 0.5;
  const half = (textLength(text) / 2 + 4) / pixels;
  if (kind === 'fall') return Math.min(0.5, Math.max(0.2, half + 5 / pixels));
  return Math.min(1 - half, Math.max(0.54, (LETTER_AT + 10) / pixels + half));
};

const offsets: Readonly<Record<Measure['kind'], number>> = { inside: 12, outside: 15, fall: 9 };

/** A measure's number along its line; outside it gets a line of its own with ends. */
const MeasureText = ({ measure, see, scale, text }: MeasureTextProps): ReactElement => {
  const [a, b] = [see(measure.ends[0]), see(measure.ends[1])];
  const side: Vec2 = [measure.side[0], -measure.side[1]];
  const pixels = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const share = shareOf(measure.kind, text, pixels);
  const isLevel = measure.kind === 'fall' && standsLevel(text, pixels);
  const className = measure.kind === 'outside' ? '' : 'on-panel';
  return (
    <>
      {measure.kind === 'outside' && (
        <Span a={a} b={b} side={side} gap={textLength(text) + 6} beyond={measure.hem * scale} />
      )}
      <Along
        a={a}
        b={b}
        side={side}
        share={isLevel ? 0.2 : share}
        off={isLevel ? 0 : offsets[measure.kind] + measure.hem * scale}
        className={className}
        text={text}
        isLevel={isLevel}
      />
    </>
  );
};

interface AlongProps {
  readonly a: Vec2;
  readonly b: Vec2;
  readonly side: Vec2;
  /** How far up from the lower end, 0 to 1. */
  readonly share: number;
  /** Pixels to the side. */
  readonly off: number;
  readonly className: string;
  readonly text: string;
  /** Upright across the line in place of along it. */
  readonly isLevel?: boolean;
}

/** Pixels run down; the lower end first, of a level line the left. */
const lowOnScreen = (a: Vec2, b: Vec2): readonly [Vec2, Vec2] => {
  const up = a[1] - b[1];
  return (Math.abs(up) < 1 ? a[0] <= b[0] : up > 0) ? [a, b] : [b, a];
};

/** Text along a line, never upside down. */
const Along = ({ a, b, side, share, off, className, text, isLevel = false }: AlongProps): ReactElement => {
  const [low, high] = lowOnScreen(a, b);
  const [x, y] = add2(lerp2(low, high, share), scale2(side, off));
  let turn = isLevel ? 0 : (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  if (turn > 90) turn -= 180;
  if (turn <= -90) turn += 180;
  return (
    <text
      className={className}
      transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(1)})`}
      y={4.5}
    >
      {text}
    </text>
  );
};

/** The whole name, `WSW` for `West-south-west` where the eave is short, or nothing; `room` in pixels. */
const nameThatFits = (title: string, room: number): string => {
  const initials = title
    .split('-')
    .map((word) => word.charAt(0).toUpperCase())
    .join('');
  return [title, initials].find((name) => name.length * 9 <= room) ?? '';
};

/** The line of an outside measure, open where its number stands (`gap` pixels), with a short stroke at each end. */
const Span = ({
  a,
  b,
  side,
  gap,
  beyond,
}: {
  readonly a: Vec2;
  readonly b: Vec2;
  readonly side: Vec2;
  readonly gap: number;
  /** Pixels that are left free between the edge and the line. */
  readonly beyond: number;
}): ReactElement => {
  const out = (p: Vec2, by: number): string =>
    add2(p, scale2(side, by + beyond))
      .map((n) => n.toFixed(1))
      .join(' ');
  const share = Math.max(0, 0.5 - gap / 2 / Math.hypot(b[0] - a[0], b[1] - a[1]));
  const ends = `M${out(a, 4)}L${out(a, 20)}M${out(b, 4)}L${out(b, 20)}`;
  const line = `M${out(a, 15)}L${out(lerp2(a, b, share), 15)}M${out(lerp2(b, a, share), 15)}L${out(b, 15)}`;
  return <path className="line-measure" d={ends + line} />;
};
