import { isInside } from '../../core/geometry/polygon.ts';
import { add2, dot2, left2, length2, scale2, sub2, type Vec2 } from '../../core/geometry/vector.ts';
import { sidesToCut } from '../../core/net/board-body.ts';
import { letterStretch, type Net, type Panel, type Piece } from '../../core/net/net.ts';
import { edgesOfFaces } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { CUT_MM, isSameLength } from '../../core/tolerance.ts';

/** A measure on the drawing: its two ends in the piece's frame (mm, y up), and on which side the number stands. */
export interface Measure {
  readonly ends: readonly [Vec2, Vec2];
  readonly length: number;
  /** inside: along a fold or seam, on the panel · outside: along an open edge · fall: up the middle of the panel. */
  readonly kind: 'inside' | 'outside' | 'fall';
  /** Unit normal towards the side of the number. */
  readonly side: Vec2;
  /** Width of the hem that hangs there, mm: an outside measure stands beyond it. */
  readonly hem: number;
  /** Another inside measure of the same panel says the same: left out where there is little room. */
  readonly isTwin: boolean;
}

export interface MatchMark {
  /** The seam's side on this piece, its lower end first. */
  readonly ends: readonly [Vec2, Vec2];
  /** Unit normal towards the inside of the panel. */
  readonly side: Vec2;
  /** The panel as it is cut. */
  readonly panel: readonly Vec2[];
  readonly letter: string;
}

export interface PanelName {
  readonly ends: readonly [Vec2, Vec2];
  /** Unit normal to the outside. */
  readonly side: Vec2;
  readonly title: string;
  /** Width of the hem between the eave and the name, mm. */
  readonly hem: number;
  /** A measure stands between the eave and the name. */
  readonly isBehindMeasure: boolean;
}

export interface PieceFigure {
  readonly piece: Piece;
  readonly measures: readonly Measure[];
  readonly marks: readonly MatchMark[];
  /** Where a piece has several faces: their titles, outside along their eaves. */
  readonly names: readonly PanelName[];
}

const at = <T>(list: readonly T[], i: number): T => list[((i % list.length) + list.length) % list.length] as T;

const middle = (points: readonly Vec2[]): Vec2 =>
  scale2(
    points.reduce<Vec2>((sum, p) => add2(sum, p), [0, 0]),
    1 / points.length,
  );

const unit = (v: Vec2): Vec2 => scale2(v, 1 / Math.max(length2(v), Number.MIN_VALUE));

/** The ends of a line, y up: the lower first, of a level one the left. */
const lowFirst = (a: Vec2, b: Vec2): readonly [Vec2, Vec2] => {
  const up = b[1] - a[1];
  return (Math.abs(up) <= CUT_MM ? a[0] <= b[0] : up > 0) ? [a, b] : [b, a];
};

const polygonEdges = (polygon: readonly Vec2[]): (readonly [Vec2, Vec2])[] =>
  polygon.map((p, i) => [p, at(polygon, i + 1)]);

/** Inward normal of an edge of a counter-clockwise polygon. */
const inward = ([a, b]: readonly [Vec2, Vec2]): Vec2 => unit(left2(sub2(b, a)));

/** From the eave straight up the panel to its highest point (or the middle of its top edge). */
const fallLine = (polygon: readonly Vec2[], eave: readonly [Vec2, Vec2]): Measure | null => {
  const up = inward(eave);
  const heights = polygon.map((p) => dot2(sub2(p, eave[0]), up));
  const most = Math.max(...heights);
  const top = middle(polygon.filter((_, i) => most - (heights[i] as number) < most / 1000));
  const foot = sub2(top, scale2(up, most));
  return { ends: [foot, top], length: most, kind: 'fall', side: unit(left2(sub2(foot, top))), hem: 0, isTwin: false };
};

/** Two panels with equal signatures look the same to the eye; only the first is measured. */
const signature = (polygon: readonly Vec2[]): string => {
  const sides = polygonEdges(polygon).map((edge) => length2(sub2(edge[1], edge[0])).toFixed(2));
  const turns = sides.map((_, i) => [...sides.slice(i), ...sides.slice(0, i)].join(' '));
  return turns.sort()[0] ?? '';
};

interface Joined {
  readonly isJoined: (edge: number) => boolean;
  /** To another panel of the same piece. */
  readonly isFolded: (edge: number) => boolean;
  /** Width of the hem along an edge, mm; 0 without one. */
  readonly hemOf: (edge: number) => number;
}

const measurePanel = (
  solid: Solid,
  { face, polygon }: Panel,
  edges: readonly number[],
  { isJoined, isFolded, hemOf }: Joined,
): Measure[] => {
  const sides = polygonEdges(polygon).flatMap((ends, i): Measure[] => {
    const edge = solid.edges[edges[i] ?? -1];
    // A curve has no straight line to write its length along.
    if (edge === undefined || edge.via) return [];
    const hangs = edge.faces.some((one) => one !== face && solid.faces[one]?.part === 'fascia');
    if (hangs && solid.faces[face]?.part !== 'fascia' && isFolded(edges[i] as number)) return [];
    const isOutside = !isJoined(edges[i] as number);
    const normal = inward(ends);
    return [
      {
        ends,
        length: length2(sub2(ends[1], ends[0])),
        kind: isOutside ? 'outside' : 'inside',
        side: isOutside ? scale2(normal, -1) : normal,
        hem: isOutside ? hemOf(edges[i] as number) : 0,
        isTwin: false,
      },
    ];
  });
  // A fascia is as long as the eave it hangs from and too low for numbers: both are measured once, along its foot.
  if (solid.faces[face]?.part === 'fascia') {
    const outside = sides.filter((one) => one.kind === 'outside').sort((a, b) => b.length - a.length);
    return outside.slice(0, 1);
  }
  const eave = lowStretch(solid, edges, polygon);
  const fall = eave === undefined ? null : fallLine(polygon, eave);
  /** How far on the side of the number up the middle: of two that say the same the one beside it is left out. */
  const beside = ({ ends }: Measure): number => (fall === null ? 0 : dot2(sub2(middle(ends), fall.ends[0]), fall.side));
  const measures = sides.map((one, i) => ({
    ...one,
    isTwin:
      one.kind === 'inside' &&
      sides.some((other, j) => {
        if (j === i || other.kind !== 'inside' || !isSameLength(other.length, one.length)) return false;
        const further = beside(one) - beside(other);
        return Math.abs(further) <= CUT_MM ? j < i : further > 0;
      }),
  }));
  const repeats = fall !== null && measures.some((one) => Math.abs(one.length - fall.length) < fall.length / 1000);
  // A panel that stands on points has no line straight up it.
  return fall === null || repeats || !isInside(middle(fall.ends), polygon) ? measures : [...measures, fall];
};

/** Which edge of a panel's loop is its eave or foot; the first where it has none. */
const lowEdge = (solid: Solid, edges: readonly number[]): number =>
  Math.max(
    0,
    edges.findIndex((edge) => ['eave', 'foot', 'rim'].includes(solid.edges[edge]?.role ?? '')),
  );

/** The eave or foot of a panel laid flat; of a curved one the straight line across its middle. */
const lowStretch = (
  solid: Solid,
  edges: readonly number[],
  polygon: readonly Vec2[],
): readonly [Vec2, Vec2] | undefined => {
  const first = lowEdge(solid, edges);
  const count = edges.filter((edge) => edge === edges[first]).length;
  const middlePart = first + Math.floor(count / 2);
  if (count === 1) return polygonEdges(polygon)[first];
  return count % 2 === 1
    ? [at(polygon, middlePart), at(polygon, middlePart + 1)]
    : [at(polygon, middlePart - 1), at(polygon, middlePart + 1)];
};

/** How far the hem along an edge stands out from its foot on a flat piece, mm. */
const hemWidth = ({ hems }: Piece, edge: number): number => {
  const hem = hems.find((one) => one.edge === edge);
  const [a, b] = hem?.polygon ?? [];
  if (hem === undefined || a === undefined || b === undefined) return 0;
  // Round a curve it is toothed, and each tooth stands straight out.
  if (hem.base > 1) return length2(sub2(at(hem.polygon, -1), a));
  const along = unit(sub2(b, a));
  return Math.max(...hem.polygon.map((p) => Math.abs(dot2(sub2(p, a), left2(along)))));
};

/** What is written on each piece of a net: measures of every panel that is not like one before (of board as it is cut), letters, names. */
export const netFigures = (solid: Solid, net: Net): readonly PieceFigure[] => {
  const seen = new Set<string>();
  const edges = edgesOfFaces(solid);
  return net.pieces.map((piece, index) => {
    const folded = new Set(piece.folds.map((fold) => fold.edge));
    const joined = new Set([...folded, ...net.seams.map((seam) => seam.edge)]);
    const hemOf = (edge: number): number => hemWidth(piece, edge);
    // What hangs from an eave is known by it.
    const named = piece.panels.filter(({ face }) => solid.faces[face]?.part !== 'fascia');
    const measured = new Set<number>();
    const measures = piece.panels.flatMap((whole) => {
      const sides = sidesToCut(whole, piece.board);
      const panel: Panel = { face: whole.face, polygon: sides.map(({ from }) => from) };
      const own = edges[whole.face] ?? [];
      const key = signature(panel.polygon);
      if (seen.has(key)) return [];
      seen.add(key);
      measured.add(panel.face);
      const cut = sides.map(({ side }) => own[side] ?? -1);
      return measurePanel(solid, panel, cut, {
        isJoined: (edge) => joined.has(edge),
        isFolded: (edge) => folded.has(edge),
        hemOf,
      });
    });
    const marks = net.seams.flatMap((seam) =>
      seam.sides
        .filter((side) => side.piece === index)
        .map((side): MatchMark => {
          const [a, b] = letterStretch(side);
          const [low, high] = lowFirst(a, b);
          const normal = unit(left2(sub2(b, a)));
          const panel = piece.board ? piece.outline : (piece.panels[side.panel]?.polygon ?? [a, b]);
          const beside = (by: number): boolean => isInside(add2(middle([a, b]), scale2(normal, by)), panel);
          // Along a line within the panel, as where a wall stands, there is paper on either side.
          const isWithin = beside(CUT_MM) === beside(-CUT_MM);
          const isLeft = isWithin ? dot2(sub2(middle(panel), a), normal) > 0 : beside(CUT_MM);
          return { ends: [low, high], side: isLeft ? normal : scale2(normal, -1), panel, letter: seam.mark };
        }),
    );
    const names = named.flatMap((panel): PanelName[] => {
      const ends = lowStretch(solid, edges[panel.face] ?? [], panel.polygon);
      if (ends === undefined || named.length === 1) return [];
      const title = solid.faces[panel.face]?.title ?? '';
      const low = edges[panel.face] ?? [];
      return [
        {
          ends,
          side: scale2(inward(ends), -1),
          title,
          hem: hemOf(low[lowEdge(solid, low)] ?? -1),
          isBehindMeasure: measured.has(panel.face),
        },
      ];
    });
    return { piece, measures, marks, names };
  });
};
