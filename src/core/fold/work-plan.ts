import { ringsOf } from '../footprint/offset.ts';
import { at } from '../geometry/polygon.ts';
import { add3, dot3, length3, scale3, unit3, type Vec3 } from '../geometry/vector.ts';
import type { Net, Piece } from '../net/net.ts';
import type { Body } from '../project/project.ts';
import { facetsOf, newellNormal } from '../solid/face-frame.ts';
import { isFootOnFace } from '../solid/measure.ts';
import type { Solid } from '../solid/solid.ts';
import { type Approach, fromAbove, type WorkPlan } from './approach.ts';
import { type FlapAtRest, flapsAtRest } from './bend-piece.ts';
import {
  boxesMeet,
  type FlatPart,
  flatPart,
  joinSpaceBoxes,
  type PartPair,
  pairCrosses,
  pairMeetsOn,
  partPair,
  type SpaceBox,
  sweptBox,
} from './crossing.ts';
import { type StillParts, stillParts } from './still-parts.ts';
import { workOrder } from './work-order.ts';

/** Places along the way in at which a piece is looked at, closer together towards the end. */
const LOOKS = 12;

/**
 * Ways for the pieces of all layers to go on, one layer after the other, each in its order of work, so that none passes
 * through the body or what is on already: straight down, straight out from their outer side, or aslant, whichever is first
 * found free; where none is, with flaps held in that come under a panel that is on. `rest`: height of the eave plane over the table, mm.
 */
export function planWork(
  layers: readonly { readonly solid: Solid; readonly net: Net }[],
  body: Body | null,
  rest: number,
): readonly WorkPlan[] {
  const still = stillParts();
  if (body) still.add(bodyParts(body, rest));
  return layers.map(({ solid, net }) => {
    const order = workOrder(solid, net);
    still.coverAll();
    const rested = net.pieces.map((piece, p) =>
      flapsAtRest(
        solid,
        net,
        p,
        piece.flaps.map(() => 0),
      ),
    );
    const approaches = new Map<number, Approach>();
    const on = new Set<number>();
    for (const p of order) {
      const piece = net.pieces[p] as Piece;
      // A strip has no panels: its halves are what is seen of it.
      const panels = piece.strip ? [] : panelParts(solid, piece);
      const flaps = sunkParts(rested[p]);
      // A wall's foot lies on the panel it stands on, and every other flap under its mate.
      const late = piece.flaps.flatMap(({ to, edge }, i) => (on.has(to) && !isFootOnFace(solid, edge) ? [i] : []));
      const holds = late.length === 0 || piece.strip ? [0] : HOLDS;
      const ways = holds.map((holdBy): Way => {
        const held = piece.flaps.map((_, i) => (late.includes(i) ? holdBy : 0));
        const rings = holdBy === 0 ? rested[p] : flapsAtRest(solid, net, p, held);
        return { moving: [...panels.map(alike), ...movingFlaps(rings)], heldIn: holdBy === 0 ? [] : late, holdBy };
      });
      approaches.set(p, { ...chooseApproach(ways, piece.strip ? flaps : panels, still), slips: late });
      still.add([...panels, ...flaps]);
      for (const { face } of piece.panels) on.add(face);
    }
    return { order, approaches: net.pieces.map((_, p) => approaches.get(p) ?? fromAbove) };
  });
}

/** A part on its way: as it is held against its own layer, and against what that layer lies on. */
interface MovingPart {
  readonly own: FlatPart;
  readonly over: FlatPart;
}

const alike = (part: FlatPart): MovingPart => ({ own: part, over: part });

/** Flaps lie under the panels of their layer, but on what is beneath it. */
const movingFlaps = (flaps: readonly FlapAtRest[] = []): readonly MovingPart[] =>
  flaps.map(({ ring, sunk }) => ({ own: flatPart(sunk), over: flatPart(ring) }));

const sunkParts = (flaps: readonly FlapAtRest[] = []): readonly FlatPart[] => flaps.map(({ sunk }) => flatPart(sunk));

/** A piece as it is held on its way. */
interface Way {
  readonly moving: readonly MovingPart[];
  readonly heldIn: readonly number[];
  readonly holdBy: number;
}

/** Flaps that come under a panel that is on already are held in by so much, radians; the least that serves. */
const HOLDS = [0, 0.4, 0.9];

function chooseApproach(ways: readonly Way[], panels: readonly FlatPart[], still: StillParts): Omit<Approach, 'slips'> {
  const { around } = still;
  if (!around) return fromAbove;
  const directions = directionsFor(panels);
  const tried = ways.flatMap(({ moving, heldIn, holdBy }) => {
    const box = joinSpaceBoxes(moving.map(({ own }) => own.box));
    const hitsOn = crossings(moving, still);
    return directions.flatMap((out) => {
      const distance = wayOut(box, around, out);
      // Not from under the table.
      if (box.min[2] + out[2] * distance < around.min[2]) return [];
      const approach = { out, distance, heldIn, holdBy };
      return [{ approach, hits: (most: number): number => hitsOn(approach, most) }];
    });
  });
  const free = tried.find(({ hits }) => hits(1) === 0);
  if (free) return { ...free.approach, isFree: true };
  let best: { readonly approach: Omit<Approach, 'slips'>; readonly hits: number } | null = null;
  for (const { approach, hits } of tried) {
    const count = hits(best?.hits ?? Number.POSITIVE_INFINITY);
    if (!best || count < best.hits) best = { approach: { ...approach, isFree: false }, hits: count };
  }
  return best?.approach ?? fromAbove;
}

/**
 * How many pairs of parts cross anywhere on a straight way out: at a look, or a corner of one through the other between looks.
 * Counted up to `most`.
 */
function crossings(
  moving: readonly MovingPart[],
  still: StillParts,
): (way: Pick<Approach, 'out' | 'distance'>, most: number) => number {
  const pairs = moving.map(() => new Map<number, PartPair>());
  const pairOf = (part: number, other: number): PartPair => {
    const known = pairs[part]?.get(other);
    if (known) return known;
    const { own, over } = moving[part] as MovingPart;
    const pair = partPair(other < still.beneath ? over : own, still.parts[other] as FlatPart);
    pairs[part]?.set(other, pair);
    return pair;
  };
  return ({ out, distance }, most) => {
    const way = scale3(out, distance);
    const shifts = Array.from({ length: LOOKS }, (_, i) => scale3(way, ((i + 1) / LOOKS) ** 2));
    let hits = 0;
    for (const [m, { own }] of moving.entries()) {
      const swept = sweptBox(own, way);
      for (const index of still.near(swept)) {
        if (!boxesMeet(swept, (still.parts[index] as FlatPart).box)) continue;
        const pair = pairOf(m, index);
        // What meets in the end by design, as a stiff flap under a rolled panel, is not held against a way.
        if (pairMeetsOn(pair, way, shifts) && !pairCrosses(pair, [0, 0, 0])) hits++;
        if (hits >= most) return hits;
      }
    }
    return hits;
  };
}

/** Where a piece may come from: above, its outer side, level out, and aslant between and beside these. */
function directionsFor(panels: readonly FlatPart[]): readonly Vec3[] {
  const up: Vec3 = [0, 0, 1];
  const outward = panels.map(({ rings: [ring = []], normal }) => scale3(normal, areaOf(ring))).reduce(add3);
  const level = Math.hypot(outward[0], outward[1]);
  // A piece all round has no side of its own.
  if (level <= 1e-3 * length3(outward)) return [up];
  const out: Vec3 = [outward[0] / level, outward[1] / level, 0];
  const aside: Vec3 = [-out[1], out[0], 0];
  const mix = (o: number, a: number, u: number): Vec3 =>
    unit3(add3(add3(scale3(out, o), scale3(aside, a)), scale3(up, u)));
  return [
    up,
    unit3([outward[0], outward[1], Math.max(0, outward[2])]),
    out,
    mix(1, 0, 1),
    ...[0, 0.5].flatMap((u) => [0.5, 1, 2].flatMap((a) => [mix(1, a, u), mix(1, -a, u)])),
    ...(outward[2] > 0 ? [0, 0.5, -0.5].map((a) => mix(outward[2] / level, (a * outward[2]) / level, -1)) : []),
  ];
}

const areaOf = (ring: readonly Vec3[]): number => {
  const normal = newellNormal(ring);
  const twice = ring.reduce((sum, p, i) => {
    const q = at(ring, i + 1);
    return sum + dot3(normal, [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]]);
  }, 0);
  return Math.abs(twice) / 2;
};

/** How far out a box lies clear of another: beside it in plan, or over it. */
function wayOut(box: SpaceBox, around: SpaceBox, out: Vec3): number {
  const ways = ([0, 1, 2] as const).flatMap((i) => {
    const o = out[i];
    if (o > 0) return [Math.max(0, (around.max[i] - box.min[i]) / o)];
    return o < 0 ? [Math.max(0, (around.min[i] - box.max[i]) / o)] : [];
  });
  return Math.min(...ways.filter((way) => Number.isFinite(way))) + CLEAR;
}

/** A piece that has come out keeps so far off, mm. */
const CLEAR = 2;

const panelParts = (solid: Solid, piece: Piece): FlatPart[] =>
  piece.panels.flatMap(({ face }) =>
    facetsOf(solid.faces[face] as Solid['faces'][number]).map((loop) =>
      flatPart(loop.map((v) => solid.vertices[v] as Vec3)),
    ),
  );

/** The body's walls and its top, from the table up, in the frame of the solid. */
function bodyParts(body: Body, rest: number): FlatPart[] {
  const rings = ringsOf({ corners: body.outline, courts: body.courts });
  const level = (z: number) => rings.map((ring) => ring.map(([x, y]): Vec3 => [x, y, z - rest]));
  const [low, high] = [level(0), level(body.height)];
  const walls = low.flatMap((ring, r) =>
    ring.flatMap((p, i) => {
      const top = high[r] ?? [];
      return body.height > 0 ? [flatPart([p, at(ring, i + 1), at(top, i + 1), at(top, i)])] : [];
    }),
  );
  return [flatPart(...high), ...walls];
}
