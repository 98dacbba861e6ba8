import { stripsOf } from '../../core/fold/strips.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { distance2, lerp2 } from '../../core/geometry/vector.ts';
import { boardFacets } from '../../core/net/board-body.ts';
import type { BoardCut, Net, Panel, Piece } from '../../core/net/net.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { type DashKind, dashLine, type Segment, takeOut } from './dashes.ts';
import type { Finish } from './finish.ts';
import { emptyPart, type FlatPart, pushFacet, pushPolygon, pushRibbon, pushRim } from './flat-part.ts';

/** The net as figures to draw: printed side (a part for every look), wrong side with the cut rims, and all lines. */
export interface NetParts {
  readonly prints: readonly FlatPart[];
  readonly wrong: FlatPart;
  readonly lines: FlatPart;
}

export interface NetDrawing {
  /** Paper thickness as drawn, mm. */
  readonly thickness: number;
  /** Width of an inked line, mm. */
  readonly line: number;
  readonly finish: Finish;
}

/** A line on a piece, with the panel, flap or hem of the piece it lies on (flaps count on after the panels, hems after the flaps). */
export interface PieceLine {
  readonly kind: DashKind;
  readonly ends: Segment;
  readonly member: number;
}

const near = 1e-4;
const isOn = ([c, d]: Segment, a: Vec2, b: Vec2): boolean => {
  const length = distance2(a, b);
  const off = (p: Vec2): number =>
    Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / Math.max(length, near);
  const inside = (p: Vec2): boolean => distance2(p, a) <= length + near && distance2(p, b) <= length + near;
  return off(c) < near && off(d) < near && inside(c) && inside(d);
};

const sides = (ring: readonly Vec2[]): readonly Segment[] =>
  ring.map((p, i) => [p, ring[(i + 1) % ring.length] as Vec2] as const);

const cutAround = (ring: readonly Vec2[]): readonly PieceLine[] =>
  sides(ring).map((ends): PieceLine => ({ kind: 'cut', ends, member: 0 }));

/** Cut and fold lines of a piece: outline parts that no fold or flap takes are cut, each drawn once. Of board, its outline. */
export const pieceLines = (piece: Piece): readonly PieceLine[] => {
  if (piece.board) return cutAround(piece.outline);
  const lines: PieceLine[] = [];
  const folds: readonly Segment[] = piece.folds.map((fold) => fold.ends);
  piece.panels.forEach((panel, member) => {
    const bases = [...piece.flaps, ...piece.hems]
      .filter((flap) => flap.panel === member)
      .flatMap(({ polygon, base }) => sides(polygon).slice(0, base));
    for (const [a, b] of sides(panel.polygon)) {
      const taken = [...folds, ...bases].filter((base) => isOn(base, a, b));
      for (const ends of takeOut(a, b, taken)) lines.push({ kind: 'cut', ends, member });
    }
  });
  for (const fold of piece.folds) {
    // Where the paper goes straight on nothing is scored.
    if (fold.angle > 0) lines.push({ kind: fold.kind, ends: fold.ends, member: fold.panels[0] });
  }
  for (const { ends, panel } of piece.rulings) lines.push({ kind: 'ruling', ends, member: panel });
  [...piece.flaps, ...piece.hems].forEach((flap, i) => {
    const around = sides(flap.polygon);
    for (const ends of around.slice(0, flap.base))
      lines.push({ kind: flap.kind, ends, member: Math.max(0, flap.panel) });
    for (const ends of around.slice(flap.base)) lines.push({ kind: 'cut', ends, member: piece.panels.length + i });
  });
  return lines;
};

/** First owner number of each piece: owners run through all panels, then all flaps, then all hems, piece by piece. */
export const firstOwners = (net: Net): readonly number[] => {
  let next = 0;
  return net.pieces.map((piece) => {
    const first = next;
    next += piece.panels.length + piece.flaps.length + piece.hems.length;
    return first;
  });
};

const above = 0.05;

/** Where the outside of a piece is drawn and where its inside and cut sides are. */
interface Sides {
  readonly print: FlatPart;
  readonly wrong: FlatPart;
  readonly mapping: (p: Vec2) => Vec2;
}

export const buildNetParts = (solid: Solid, net: Net, { thickness, line, finish }: NetDrawing): NetParts => {
  const prints = finish.looks.map(() => emptyPart());
  const wrong = emptyPart();
  const lines = emptyPart();
  const starts = firstOwners(net);
  net.pieces.forEach((piece, index) => {
    const start = starts[index] ?? 0;
    const { board, panels } = piece;
    const [panel] = panels;
    const sides: Sides = {
      print: prints[finish.lookAt(index)] as FlatPart,
      wrong,
      mapping: (p) => finish.mapping(index, p),
    };
    if (board && panel) pushBoard(sides, panel, board, start);
    else pushPaper(sides, solid, piece, { start, thickness });
    for (const { kind, ends, member } of board ? cutAround(board.outer) : pieceLines(piece)) {
      for (const [a, b] of dashLine(ends[0], ends[1], kind, line)) {
        pushRibbon(lines, a, b, line, { owner: start + member, z: above }, kind === 'cut' ? 1 : 0);
      }
    }
    const inside = -(board?.thickness ?? thickness) - above;
    for (const { ends, panel: on } of piece.glueLines) {
      for (const [a, b] of dashLine(ends[0], ends[1], 'glue', line)) {
        pushRibbon(lines, a, b, line, { owner: start + on, z: inside, under: true });
      }
    }
  });
  return { prints, wrong, lines };
};

const pushPaper = (
  { print, wrong, mapping }: Sides,
  solid: Solid,
  piece: Piece,
  { start, thickness }: { readonly start: number; readonly thickness: number },
): void => {
  const members = [
    ...piece.panels.map((panel) => stripsOf(solid, panel)),
    ...[...piece.flaps, ...piece.hems].map((flap) => [flap.polygon]),
  ];
  members.forEach((rings, member) => {
    const owner = start + member;
    for (const ring of rings) {
      pushPolygon(print, ring, { owner, z: 0 }, mapping);
      pushPolygon(wrong, ring, { owner, z: -thickness, under: true });
    }
  });
  for (const { kind, ends, member } of pieceLines(piece)) {
    if (kind === 'cut') pushRim(wrong, ends[0], ends[1], -thickness, 0, start + member);
  }
};

/** A panel of board as it is cut: its outside, its inside as much lower as the board is thick, and its cut side between them. */
const pushBoard = ({ print, wrong, mapping }: Sides, panel: Panel, board: BoardCut, owner: number): void => {
  pushPolygon(print, board.outer, { owner, z: 0 }, mapping);
  pushPolygon(wrong, board.inner, { owner, z: -board.thickness, under: true });
  for (const facet of boardFacets(panel, board)) pushFacet(wrong, facet, owner);
};

/** Where a seam's match mark is written: inside the panel, off the middle of the seam. */
export const markPlace = (ends: Segment, polygon: readonly Vec2[], inset: number): Vec2 => {
  const middle = lerp2(ends[0], ends[1], 0.5);
  const centre: Vec2 = [
    polygon.reduce((sum, p) => sum + p[0], 0) / polygon.length,
    polygon.reduce((sum, p) => sum + p[1], 0) / polygon.length,
  ];
  const away = distance2(middle, centre);
  return away === 0 ? middle : lerp2(middle, centre, Math.min(0.5, inset / away));
};
