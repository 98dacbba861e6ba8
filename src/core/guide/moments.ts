import { cutLayers } from '../cut-layers.ts';
import { type Approach, fromAbove } from '../fold/approach.ts';
import { rollOf } from '../fold/bend.ts';
import { bendPiece, placeOf } from '../fold/bend-piece.ts';
import { type PiecePose, poseNet } from '../fold/pose.ts';
import { FOLDED, SCORED } from '../fold/stops.ts';
import { shifted } from '../geometry/motion.ts';
import { add3, cross3, dot3, scale3, type Vec3 } from '../geometry/vector.ts';
import type { MadeLayer, MadeRoof } from '../make-roof.ts';
import type { Production } from '../pipeline.ts';
import type { Moment } from './guide-data.ts';
import type { Scene } from './hidden-lines.ts';
import { drawScene, type LinePicture } from './line-picture.ts';
import { outwardOf, pieceScene, turnedTo } from './piece-scene.ts';
import { isometric, sightFrom } from './sight.ts';
import { bodyScene, emptyScene, joinScenes, solidScene, UNDER_MM } from './solid-scene.ts';
import { waysOn } from './ways-on.ts';

/** Where a picture is looked at from, and what that is called. */
export interface Viewpoint {
  readonly direction: Vec3;
  readonly words: string;
}

const fromFrontRight: Viewpoint = { direction: [1, -1, 1], words: 'the front right' };
const viewpoints: readonly Viewpoint[] = [
  fromFrontRight,
  { direction: [-1, -1, 1], words: 'the front left' },
  { direction: [1, 1, 1], words: 'the back right' },
  { direction: [-1, 1, 1], words: 'the back left' },
];
const fromBelow: Viewpoint = { direction: [1, -1, -0.8], words: 'below' };

/** The lines of a moment of the work; hidden ones are left out. mm of the model. */
export function drawMoment(production: Production, moment: Moment): LinePicture {
  const roof = production.roofs[moment.roof];
  if (!roof?.made) return drawScene(emptyScene, isometric);
  return drawScene(sceneOf(roof, moment), sightFrom(viewOf(production, moment).direction));
}

function sceneOf(roof: MadeRoof, moment: Moment): Scene {
  if (moment.kind === 'whole') return wholeScene(roof);
  const layer = cutLayers(roof)[moment.layer];
  if (!layer) return emptyScene;
  return moment.kind === 'folding' ? foldingScene(layer, moment.piece) : goingOnScene(roof, layer, moment);
}

/** The side that shows best what goes on; a seat from below. */
export function viewOf({ roofs }: Production, moment: Moment): Viewpoint {
  const roof = roofs[moment.roof];
  if (!roof?.made || moment.kind === 'whole') return fromFrontRight;
  if (moment.kind === 'folding') return widest(sceneOf(roof, moment));
  if (moment.layer >= roof.made.layers.length) return fromBelow;
  const layer = roof.made.layers[moment.layer] as MadeLayer;
  const facing = (toEye: Vec3): number =>
    moment.moving.reduce((sum, p) => {
      const piece = layer.net.pieces[p];
      return piece ? sum + Math.sign(Math.round(1e3 * turnedTo(outwardOf(layer.solid, piece), toEye))) : sum;
    }, 0);
  return viewpoints.reduce((best, view) => (facing(view.direction) > facing(best.direction) ? view : best));
}

/** The side from which a piece by itself shows the most of its faces: none of them by its edge alone. */
function widest({ faces }: Scene): Viewpoint {
  const areas = faces.map(({ rings: [ring = []] }) =>
    ring.reduce<Vec3>((sum, p, i) => add3(sum, cross3(p, ring[(i + 1) % ring.length] as Vec3)), [0, 0, 0]),
  );
  const shown = ({ direction }: Viewpoint): number =>
    areas.reduce((sum, area) => sum + Math.abs(dot3(area, direction)), 0);
  return viewpoints.reduce((best, view) => (shown(view) > CLEARLY * shown(best) ? view : best));
}

/** Another side than the front is looked at only where it shows so much more. */
const CLEARLY = 1.25;

const raised = (scene: Scene, by: number): Scene => {
  const up = (p: Vec3): Vec3 => [p[0], p[1], p[2] + by];
  return {
    faces: scene.faces.map(({ rings }) => ({ rings: rings.map((ring) => ring.map(up)) })),
    lines: scene.lines.map((line) => ({ ...line, ends: [up(line.ends[0]), up(line.ends[1])] })),
  };
};

function wholeScene({ spec, made }: MadeRoof): Scene {
  const outermost = made?.layers.at(-1);
  if (!made || !outermost) return emptyScene;
  const body = spec.body ? bodyScene(spec.body, 0, spec.body.height) : emptyScene;
  return joinScenes([body, raised(solidScene(outermost.solid), made.fit.rest)]);
}

/** A piece that stands by itself, its flaps turned and its folds half way. */
function foldingScene({ solid, net }: MadeLayer, p: number): Scene {
  const piece = net.pieces[p];
  if (!piece) return emptyScene;
  const alone = { ...net, pieces: [piece] };
  const plan = { order: [0], approaches: [fromAbove] };
  const { pieces } = poseNet(solid, alone, (SCORED + FOLDED) / 2, { rest: 0, spots: [[0, 0]], plan });
  return pieces[0] ? pieceScene(solid, piece, pieces[0]) : emptyScene;
}

/** A tower is drawn so far down only, as a share of the roof's own size. */
const BODY_SHARE = 0.5;
/** Pieces that go on are drawn so far out of their places, as a share of the roof's size. */
const OUT_SHARE = 0.32;

function goingOnScene(
  roof: MadeRoof,
  layer: MadeLayer,
  { layer: l, on, moving }: Extract<Moment, { kind: 'going-on' }>,
): Scene {
  const { made, spec } = roof;
  if (!made) return emptyScene;
  const { solid, net } = layer;
  const size = Math.max(...made.solid.vertices.map((v) => Math.max(v[2], Math.hypot(v[0], v[1]))));
  const isSeat = l >= made.layers.length;
  const top = spec.body ? spec.body.height - made.fit.rest : 0;
  const foot = Math.max(-made.fit.rest, top - BODY_SHARE * size);
  const under = isSeat
    ? made.layers.slice(0, 1).map((below) => solidScene(below.solid))
    : [
        ...(spec.body ? [bodyScene(spec.body, foot, top)] : []),
        ...made.layers.slice(0, l).map((below) => doneScene(below, UNDER_MM * 8 * (l - made.layers.indexOf(below)))),
      ];
  const approaches = isSeat ? [] : (waysOn(roof)[l]?.approaches ?? []);
  return joinScenes([
    ...under,
    ...net.pieces.flatMap((piece, p) => {
      const isMoving = moving.includes(p);
      if (!isMoving && !on.includes(p)) return [];
      const seat: Approach = { ...fromAbove, out: [0, 0, -1] };
      const out = isMoving
        ? scale3((isSeat ? seat : (approaches[p] ?? fromAbove)).out, OUT_SHARE * size)
        : ([0, 0, 0] as const);
      return [pieceScene(solid, piece, inPlace(layer, p, out), { out })];
    }),
  ]);
}

const doneScene = (layer: MadeLayer, sunk: number): Scene =>
  joinScenes(
    layer.net.pieces.map((piece, p) =>
      pieceScene(layer.solid, piece, inPlace(layer, p, [0, 0, 0]), { sunk, out: [0, 0, 0] }),
    ),
  );

/** A piece wholly folded, in its place on the solid or so far out of it. */
function inPlace({ solid, net }: MadeLayer, p: number, out: Vec3): PiecePose {
  const piece = net.pieces[p] as MadeLayer['net']['pieces'][number];
  const rolls = piece.panels.map((panel) => rollOf(solid, panel));
  const goal = placeOf(solid, piece);
  return bendPiece({ piece, rolls }, shifted(goal, out), { folds: 1, flaps: 1 });
}
