import { lerp2, type Vec2 } from '../../core/geometry/vector.ts';
import { letterStretch, type Net, type SeamSide } from '../../core/net/net.ts';
import { type Edge, isJoinedAt, type Solid } from '../../core/solid/solid.ts';
import { markPlace } from './net-parts.ts';

/** A match mark on a panel of the flat net; mm in the piece's frame. */
export interface LetterSpot {
  readonly mark: string;
  readonly piece: number;
  readonly panel: number;
  readonly at: Vec2;
  readonly height: number;
}

/** Where along its seam a letter may stand, the best first; at a ridge beside the line of the fall. */
const SHARES = [0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86];
const RIDGE_SHARES = [0.3, 0.7, 0.4, 0.6, 0.2, 0.8];
/** How small the letters of a crowded panel may become. */
const SHRINK = [1, 0.85, 0.72, 0.6];
/** Width of a letter and height of a capital with the border round it, by the height of its line. */
const WIDTH = 0.62;
const CAPITAL = 0.72;

interface Letter {
  readonly mark: string;
  readonly side: SeamSide;
  readonly shares: readonly number[];
}

/**
 * Every seam's letter on the panels that are joined at it, inside them and off the seam. Letters of one panel keep clear of each other:
 * they move along their seams, then all of them get smaller; what still has no room is left to the Paper place.
 */
export const letterSpots = (net: Net, solid: Solid, height: number): readonly LetterSpot[] => {
  const byPanel = new Map<string, Letter[]>();
  for (const { mark, edge, sides } of net.seams) {
    const own = solid.edges[edge] as Edge;
    const shares = own.role === 'ridge' ? RIDGE_SHARES : SHARES;
    for (const side of sides) {
      const face = net.pieces[side.piece]?.panels[side.panel]?.face;
      if (face === undefined || !isJoinedAt(own, face)) continue;
      const key = `${side.piece} ${side.panel}`;
      byPanel.set(key, [...(byPanel.get(key) ?? []), { mark, side, shares }]);
    }
  }
  return [...byPanel.values()].flatMap((letters) => {
    const [first] = letters;
    const polygon = first && net.pieces[first.side.piece]?.panels[first.side.panel]?.polygon;
    if (polygon === undefined) return [];
    const sizes = SHRINK.map((share) => spread(letters, polygon, share * height));
    const most = Math.max(...sizes.map((spots) => spots.length));
    return sizes.find((spots) => spots.length === most) ?? [];
  });
};

/** The letters of one panel that find room at this height, each at the best place that those before it leave. */
const spread = (letters: readonly Letter[], polygon: readonly Vec2[], height: number): LetterSpot[] => {
  const spots: LetterSpot[] = [];
  for (const { mark, side, shares } of letters) {
    const { piece, panel } = side;
    const places = shares.map((share) => markPlace(stretchAt(side, share), polygon, height * 0.72));
    const at = places.find((place) => spots.every((spot) => isClear(place, mark, spot)));
    if (at !== undefined) spots.push({ mark, piece, panel, at, height });
  }
  return spots;
};

/** A stretch of no length where the letter stands: `markPlace` goes inwards from its middle. */
const stretchAt = (side: SeamSide, share: number): readonly [Vec2, Vec2] => {
  const [a, b] = letterStretch(side, share);
  const point = lerp2(a, b, side.curve === undefined ? share : 0.5);
  return [point, point];
};

const isClear = (place: Vec2, mark: string, spot: LetterSpot): boolean => {
  const across = (WIDTH * spot.height * (mark.length + spot.mark.length)) / 2;
  return Math.abs(place[0] - spot.at[0]) >= across || Math.abs(place[1] - spot.at[1]) >= CAPITAL * spot.height;
};
