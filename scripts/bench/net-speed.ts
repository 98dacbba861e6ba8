import { poseNet } from '../../src/core/fold/pose.ts';
import type { Vec2 } from '../../src/core/geometry/vector.ts';
import { insideOf, layerSolids, lowestFoot, wallSeat } from '../../src/core/layers/layer-solids.ts';
import { buildRoof } from '../../src/core/make-roof.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import { buildNet } from '../../src/core/net/build-net.ts';
import type { LayerSpec, PiecesMode, RoofSpec } from '../../src/core/project/project.ts';
import { raiseRegular } from '../../src/core/roofs/construct/raise-regular.ts';
import type { Solid } from '../../src/core/solid/solid.ts';
import { everyExample } from './every-example.ts';
import { timeInTurn } from './median.ts';

/** A bell-cast spire of so many sides, its bands all of one slant (mm), steeper from the eave up. */
const SIDES = 10;
const BAND = 8;
const [FOOT, TOP] = [0.5, 1.45];
const FLAPS = { width: 6, on: 'alternate', clearance: 0.5, least: 2 } as const;

function spireOf(faces: number): Solid {
  const bands = Math.max(1, Math.round(faces / SIDES));
  const pitches = Array.from({ length: bands }, (_, i) => FOOT + ((TOP - FOOT) * (i + 0.5)) / bands);
  const runs = pitches.map((pitch) => BAND * Math.cos(pitch));
  let [reach, level] = [runs.reduce((sum, run) => sum + run, 0), 0];
  const profile = pitches.map((pitch, i): Vec2 => {
    const point: Vec2 = [reach, level];
    reach -= runs[i] as number;
    level += BAND * Math.sin(pitch);
    return point;
  });
  return raiseRegular(SIDES, [...profile, [0, level]]);
}

export interface NetSpeed {
  readonly faces: number;
  readonly pieces: PiecesMode;
  /** Of the net with its flaps, and of one pose of it, ms. */
  readonly ms: number;
  readonly pose: number;
  /** Time of the net goes with the faces to this power, from the size before to this. */
  readonly growth: number | null;
}

/** Net and flaps of bell-cast spires of many bands. */
export function netSpeeds(sizes: readonly number[] = [10, 100, 1_000, 10_000]): readonly NetSpeed[] {
  return (['per-panel', 'one-piece'] as const).flatMap((pieces) => {
    const speeds: NetSpeed[] = [];
    for (const faces of sizes) {
      const solid = spireOf(faces);
      const { net } = buildNet(solid, { pieces, flaps: FLAPS });
      const spots = arrangeOnTable([{ solid, net }], null)[0] ?? [];
      const [rounds, trials] = faces > 1_000 ? [3, 1] : [15, 6];
      const [ms = 0, pose = 0] = timeInTurn(
        [
          () => void buildNet(solid, { pieces, flaps: FLAPS }),
          () => void poseNet(solid, net, MIDWAY, { rest: 40, spots }),
        ],
        rounds,
        1,
        trials,
      );
      const before = speeds.at(-1);
      const growth = before ? Math.log(ms / before.ms) / Math.log(faces / before.faces) : null;
      speeds.push({ faces, pieces, ms, pose, growth });
    }
    return speeds;
  });
}

/** A pose in the middle of the work: flaps folded, pieces on their way. */
const MIDWAY = 0.7;

export interface ExampleSpeed {
  readonly kind: string;
  readonly title: string;
  readonly as: LayerSpec['as'];
  readonly faces: number;
  /** From a change of a parameter to panels and flaps where they are drawn. */
  readonly ms: number;
}

/** Every example of the catalogue from its parameters to solid, layer, net, flaps and pose, as a shell in one piece and as a cover by panels; the slowest first. */
export function exampleSpeeds(): readonly ExampleSpeed[] {
  const roofs = everyExample(['shell', 'cover']);
  const times = timeInTurn(
    // A slider asks many times: the compiler has seen it all.
    roofs.map((spec) => () => void changeRoof(spec)),
    21,
    1,
    5,
  );
  return roofs
    .map((spec, index): ExampleSpeed => {
      const { kind, title, layers } = spec;
      const faces = changeRoof(spec);
      return { kind, title, as: layers[0]?.as ?? 'cover', faces, ms: times[index] ?? Number.NaN };
    })
    .sort((a, b) => b.ms - a.ms);
}

function changeRoof(spec: RoofSpec): number {
  const built = buildRoof(spec);
  if (!built.ok) throw new Error(`the example ${spec.title} of ${spec.kind} has no roof`);
  for (const layer of spec.layers) {
    const stack = [{ as: layer.as, thickness: CARD }];
    // Walls on the body come down with the underside of the roof; elsewhere it is not asked for.
    const inside = lowestFoot(built.value) === null ? null : insideOf(built.value, stack);
    const [own] = layerSolids(built.value, stack, inside?.ok ? wallSeat(built.value, inside.value, spec.body) : null);
    // Where a roof has no room for card, thin paper is taken.
    const solid = own?.ok ? own.value : built.value;
    const { net } = buildNet(solid, layer);
    const [spots = []] = arrangeOnTable([{ solid, net }], spec.body);
    poseNet(solid, net, MIDWAY, { rest: 40, spots });
  }
  return built.value.faces.length;
}

/** Thickness of the layers, mm: it counts. */
const CARD = 0.5;
