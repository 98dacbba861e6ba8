import { type Fan, hungCorners, hungPlaces } from '../fit/fan.ts';
import { cross2, distance2, sub2, type Vec2 } from '../geometry/vector.ts';
import { isSameLength, NOISE_MM } from '../tolerance.ts';
import { toDegrees } from '../units/units.ts';
import type { CompassPad } from './compass-pad.ts';
import type { DraftPanel } from './draft.ts';
import { foldUse, type PieceToPlan } from './plan-parts.ts';
import { applyPose, type Pose } from './pose.ts';
import { exact, type Turn } from './words.ts';

/**
 * Sets out slopes round one peak: the peak, an arc about it, chords stepped along that arc; where rays differ, each corner by two
 * openings of the compass. Then the folds from the peak, and square off the feet the corners of what hangs there. Edges all round
 * are left to be joined. Returns its figures.
 */
export function planFan(pad: CompassPad, fan: Fan, panels: readonly DraftPanel[], piece: PieceToPlan): string {
  const { pose, base, draft } = piece;
  const [centre, towards] = (base?.marks ?? []).map((at) => {
    for (const point of pad.tick([{ at }], piece.from)) pad.plot(point.at, piece.from);
    return pad.numberAt(at);
  }) as [number, number];
  const rim = fan.rim.map((p) => applyPose(pose, p));
  const radii = fan.rim.map((p) => distance2(fan.apex, p));
  const chords = fan.rim.slice(1).map((p, i) => distance2(fan.rim[i] as Vec2, p));
  const turn: Turn = pose.isMirrored ? 'clockwise' : 'counter-clockwise';
  if (radii.every((radius) => isSameLength(radius, radii[0] as number))) {
    pad.fanArc([centre, towards], { radius: radii[0] as number, chords, turn });
  } else {
    const start = pad.ray([centre, towards], radii[0] as number);
    rim.slice(1).reduce((last, at, i) => {
      const openings = [radii[i + 1] as number, chords[i] as number] as const;
      return pad.cross([centre, last], openings, { at, turn });
    }, start);
  }
  const isApex = (p: Vec2): boolean => isSameLength(distance2(p, fan.apex), 0);
  const folds = panels.flatMap(({ edges }) =>
    edges.flatMap(({ ends, fold }) => {
      if (fold === null || fold === 'flat' || !ends.some(isApex)) return [];
      const far = ends.reduce((p, q) => (distance2(q, fan.apex) > distance2(p, fan.apex) ? q : p));
      return [{ number: pad.numberAt(applyPose(pose, far)), use: foldUse(fold, pose) }];
    }),
  );
  for (const use of ['valley', 'mountain'] as const) {
    const own = folds.filter((fold) => fold.use === use).map(({ number }) => number);
    if (own.length > 0)
      pad.spokes(
        centre,
        [...new Set(own)].sort((a, b) => a - b),
        use,
      );
  }
  hang(pad, fan, panels, pose);
  return figures(pad, draft.rounded.fan as Fan, { radii, chords, rim: fan });
}

/** One by one the lines that panels hang on, and the corners of those panels square off them. */
function hang(pad: CompassPad, fan: Fan, panels: readonly DraftPanel[], pose: Pose): void {
  const corners = [...fan.rim, ...hungCorners(fan)];
  const numberOf = (i: number): number => pad.numberAt(applyPose(pose, corners[i] as Vec2));
  const edges = panels.flatMap((panel) => panel.edges);
  const places = hungPlaces(fan);
  let first = 0;
  for (const { foot, corners: own } of fan.hung) {
    const ends = foot.map((i) => corners[i] as Vec2);
    const folds = edges.filter((edge) => edge.ends.every((p) => ends.some((q) => distance2(p, q) <= NOISE_MM)));
    const fold = folds.find((edge) => edge.fold !== null)?.fold ?? 'flat';
    pad.join(foot.map(numberOf), fold === 'flat' ? 'pencil' : foldUse(fold, pose));
    for (const { from, to, along, off } of places.slice(first, first + own.length)) {
      pad.square([numberOf(from), numberOf(to)], along, [pose.isMirrored ? -off : off]);
    }
    first += own.length;
  }
}

/** `8 slopes round one peak: …`: true measures, those by the marks, and how much wider or narrower the whole opens by them. */
function figures(
  pad: CompassPad,
  meant: Fan,
  marked: { readonly radii: readonly number[]; readonly chords: readonly number[]; readonly rim: Fan },
): string {
  const pairs = (truly: readonly number[], rounded: readonly number[]): string =>
    [...new Set(truly.map((mm, i) => `${exact(mm, pad.ruler)} (${pad.figure(rounded[i] as number)})`))].join(', ');
  const chordsOf = (fan: Fan): readonly number[] => fan.rim.slice(1).map((p, i) => distance2(fan.rim[i] as Vec2, p));
  const truly = { radii: meant.rim.map((p) => distance2(meant.apex, p)), chords: chordsOf(meant) };
  const opens = toDegrees(sweepOf(marked.rim) - sweepOf(meant));
  const wider = `${Math.abs(opens).toFixed(1)}° ${opens > 0 ? 'wider' : 'narrower'}`;
  return `${truly.chords.length} slopes round one peak. True measures, and in brackets the marks: radius ${pairs(truly.radii, marked.radii)}; chord ${pairs(truly.chords, marked.chords)}. The whole opens ${wider}.`;
}

const sweepOf = ({ apex, rim }: Fan): number =>
  rim.slice(1).reduce((sum, q, i) => {
    const [u, v] = [sub2(rim[i] as Vec2, apex), sub2(q, apex)];
    return sum + Math.atan2(cross2(u, v), u[0] * v[0] + u[1] * v[1]);
  }, 0);
