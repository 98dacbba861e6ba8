import { at, boxOf } from '../geometry/polygon.ts';
import { alignSegments, apply2 } from '../geometry/rigid2.ts';
import { add2, distance2, dot3, scale2, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import type { Net, NetPoint, Panel, Piece } from '../net/net.ts';
import { placesOf } from '../net/seam-sides.ts';
import { faceFrame, flattenFace } from '../solid/face-frame.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { SNAP_MM } from '../tolerance.ts';
import { type Ruler, roundToRuler, rulerStep } from '../units/units.ts';
import { type RoundedPiece, roundPieces } from './round-pieces.ts';

/** Where a maker has drawn points of a solid's faces, in the faces' own frames (`faceFrame`), mm. */
export interface Marks {
  /** A point of a face's plane, by its vertex. */
  readonly of: (face: number, vertex: number) => Vec2;
  /** A length that is measured by itself, such as the straight edge of a rolled panel. */
  readonly length: (mm: number) => number;
}

/**
 * Every corner where it is set out on its piece, so that mating edges are as nearly of one length as the ruler allows
 * (`roundPieces`); the panel's foot where it should be, and its middle.
 */
export function ruledMarks(solid: Solid, net: Net, ruler: Ruler): Marks {
  const rounded = roundPieces(net, ruler);
  const step = rulerStep(ruler);
  const places = placesOf(net.pieces);
  const lines = lineEnds(solid, net);
  const known = new Map<number, DrawnPanel>();
  const drawPanel = (face: number): DrawnPanel => {
    const [p, i] = places.get(face) as readonly [number, number];
    const { polygon } = (net.pieces[p] as Piece).panels[i] as Panel;
    const { origin, marks, fan } = rounded[p] as RoundedPiece;
    const flat = flattenFace(solid, face);
    const onPiece = (point: Vec2): Vec2 => add2(origin, scale2(marks(point), step));
    const first = fan ? polygon.findIndex((corner) => distance2(corner, fan.apex) <= SNAP_MM) + 1 : 0;
    // The slopes of a fan push each other round its apex: each is seen by itself, on its own foot.
    const [a, b] = [at(polygon, first), at(polygon, first + 1)].map((corner) => (fan ? onPiece(corner) : corner)) as [
      Vec2,
      Vec2,
    ];
    const back = alignSegments(a, b, at(flat, first), at(flat, first + 1));
    const place = (point: Vec2): Vec2 => apply2(back, onPiece(point));
    const [meant, found] = [boxOf(flat), boxOf(polygon.map(place))];
    const shift: Vec2 = [(meant.minX + meant.maxX - found.minX - found.maxX) / 2, meant.minY - found.minY];
    return { polygon, drawn: (point) => add2(place(point), shift) };
  };
  const of = (face: number, vertex: number): Vec2 => {
    const panel = known.get(face) ?? drawPanel(face);
    known.set(face, panel);
    const corner = solid.faces[face]?.loop.indexOf(vertex) ?? -1;
    const point = corner < 0 ? lines.get(`${face}/${vertex}`) : at(panel.polygon, corner);
    if (!point) throw new Error(`face ${face} has neither a corner nor a line at vertex ${vertex}`);
    return panel.drawn(point);
  };
  return { of, length: (mm) => roundToRuler(mm, ruler).mark };
}

interface DrawnPanel {
  readonly polygon: readonly NetPoint[];
  /** A point of the piece as it is set out, in the frame of the face. */
  readonly drawn: (point: NetPoint) => Vec2;
}

/** Where walls' lines end that are drawn on the inside of panels, by face and vertex. */
function lineEnds({ edges }: Solid, { pieces, seams }: Net): ReadonlyMap<string, NetPoint> {
  return new Map(
    seams.flatMap(({ edge, sides: [, host] }) => {
      const { role, ends, faces } = edges[edge] as Edge;
      if (role !== 'abutment' || !pieces[host.piece]) return [];
      return ends.map((vertex, i) => [`${faces[1]}/${vertex}`, host.ends[i] as NetPoint] as const);
    }),
  );
}

/** Every point off by what `off` says, one panel not knowing of the other. */
export function cutMarks(solid: Solid, off: () => number): Marks {
  const drawn = new Map<string, Vec2>();
  return {
    of: (face, vertex) => {
      const key = `${face}/${vertex}`;
      const known = drawn.get(key);
      if (known) return known;
      const point = add2(inFrame(solid, face, vertex), [off(), off()]);
      drawn.set(key, point);
      return point;
    },
    length: (mm) => mm + off(),
  };
}

function inFrame(solid: Solid, face: number, vertex: number): Vec2 {
  const { origin, x, y } = faceFrame(solid, face);
  const away = sub3(solid.vertices[vertex] as Vec3, origin);
  return [dot3(away, x), dot3(away, y)];
}
