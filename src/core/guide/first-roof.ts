import { type Motion, move3, turnAbout } from '../geometry/motion.ts';
import { at } from '../geometry/polygon.ts';
import { add2, lerp2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { formatLength, MM_PER_INCH, type Units } from '../units/units.ts';
import type { Scene, SceneFace, SceneLine } from './hidden-lines.ts';
import { drawScene, type LinePicture } from './line-picture.ts';
import { isometric, sightFrom } from './sight.ts';

export interface LessonStep {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly picture: LinePicture;
  /** What a reader hears who does not see the picture. */
  readonly alt: string;
}

/** A sheet on the table: its lines, and the parts that fold up from it. */
interface Sheet {
  readonly square: readonly Vec2[];
  /** The points that will meet at the top. */
  readonly points: readonly Vec2[];
  /** One on each side of the first and the third triangle. */
  readonly flaps: readonly Flap[];
}

interface Flap {
  /** The triangle that carries it. */
  readonly side: number;
  /** The first two lie on its foot. */
  readonly ring: readonly Vec2[];
}

/** From a square on paper to a closed pyramid in six steps, drawn from its own measures: half the square, the rise and the slant are 3, 4 and 5. */
export function firstRoof(units: Units): readonly LessonStep[] {
  const unit = units === 'in' ? MM_PER_INCH / 2 : 10;
  const [half, rise, slant] = [3 * unit, 4 * unit, 5 * unit];
  const show = (mm: number): string => formatLength(mm, { units });
  const sheet = sheetOf(half, slant, 0.7 * unit);
  const paper = sightFrom([0, 0, 1]);
  const flat = (lines: readonly (readonly [Vec2, Vec2])[]): LinePicture => {
    const seen = drawScene({ faces: [], lines: lines.map(onTable) }, paper);
    // Every drawing on paper shows as much of it, so that the eye stays where it is.
    const reach = half + slant;
    return { ...seen, box: { minX: -reach, minY: -reach, maxX: reach, maxY: reach } };
  };
  const square = sidesOf(sheet.square);
  const middles = sheet.points.map((point) => [[0, 0], point] as const);
  const hips = sheet.points.flatMap((point, i) => [
    [at(sheet.square, i), point] as const,
    [at(sheet.square, i + 1), point] as const,
  ]);
  const flaps = sheet.flaps.flatMap(({ ring }) => sidesOf(ring).slice(1));
  return [
    {
      title: 'A square',
      sentences: [
        `Draw a square, ${show(2 * half)} on each side.`,
        'This is your roof as a bird sees it. It will not change any more.',
      ],
      picture: flat(square),
      alt: 'A square.',
    },
    {
      title: 'A line out from each side',
      sentences: ['Find the middle of the square. From there draw a line out through the middle of each side.'],
      picture: flat([...square, ...middles]),
      alt: 'The square with a line from its middle out over each of its four sides.',
    },
    {
      title: 'How long is a panel?',
      sentences: [
        `The roof shall be ${show(rise)} high. On its way up each panel also leans in by half the square: ${show(half)}.`,
        `Up ${show(rise)} and across ${show(half)}: draw this corner beside the square and measure from end to end. It is ${show(slant)}.`,
        `Mark ${show(slant)} on each line, measured from the side of the square.`,
      ],
      picture: flat([
        ...square,
        ...middles,
        ...sidesOf([
          [1.4 * half, 0.4 * half],
          [2.4 * half, 0.4 * half],
          [2.4 * half, 0.4 * half + rise],
        ]),
      ]),
      alt: 'The square and its lines; beside it a right triangle, whose longest side is the length of a panel.',
    },
    {
      title: 'Four triangles and some flaps',
      sentences: [
        'Join each mark to the two corners of its side: four triangles.',
        'Draw a flap along both slanted sides of two triangles that lie opposite each other.',
        'Slant the ends of the flaps, so that none shows in the end.',
      ],
      picture: flat([...square, ...hips, ...flaps]),
      alt: 'A star of four triangles round the square; two opposite ones have flaps on both slanted sides.',
    },
    {
      title: 'Score, cut and fold',
      sentences: [
        'Score the sides of the square and the feet of the flaps along a ruler.',
        'Cut out the whole star in one. A grown-up holds the knife, or take scissors.',
        'Fold the flaps, then fold the triangles up.',
      ],
      picture: drawScene(foldedScene(sheet, half, rise, 0.55), isometric),
      alt: 'The four triangles half way up, the flaps turned in.',
    },
    {
      title: 'Close it',
      sentences: [
        'Put glue on two flaps and press them under their neighbour. Then do the other two.',
        `The four points must meet. Stand a ruler beside it: the top is ${show(rise)} over the table.`,
        'That is a roof. Every other one is made of the same triangles.',
      ],
      picture: drawScene(foldedScene(sheet, half, rise, 1), isometric),
      alt: 'A closed pyramid.',
    },
  ];
}

const onTable = ([a, b]: readonly [Vec2, Vec2]): SceneLine => ({ ends: [lift(a), lift(b)] });

const lift = ([x, y]: Vec2): Vec3 => [x, y, 0];

const sidesOf = (ring: readonly Vec2[]): (readonly [Vec2, Vec2])[] => ring.map((p, i) => [p, at(ring, i + 1)]);

function sheetOf(half: number, slant: number, flap: number): Sheet {
  const square: readonly Vec2[] = [
    [-half, -half],
    [half, -half],
    [half, half],
    [-half, half],
  ];
  const reach = half + slant;
  const points: readonly Vec2[] = [
    [0, -reach],
    [reach, 0],
    [0, reach],
    [-reach, 0],
  ];
  const flaps = [0, 2].flatMap((side): Flap[] => {
    const [a, b, top] = [at(square, side), at(square, side + 1), at(points, side)];
    return [
      { side, ring: flapRing(top, a, flap) },
      { side, ring: flapRing(b, top, flap) },
    ];
  });
  return { square, points, flaps };
}

/** A strip to the left of the way from one end to the other, its ends slanted. */
function flapRing(from: Vec2, to: Vec2, width: number): readonly Vec2[] {
  const [x, y] = unit2(sub2(to, from));
  const out = scale2([-y, x], width);
  return [from, to, add2(lerp2(to, from, 0.16), out), add2(lerp2(from, to, 0.16), out)];
}

/** The star with its triangles folded up by a share of their way; flaps are wholly turned. */
function foldedScene({ square, points, flaps }: Sheet, half: number, rise: number, share: number): Scene {
  const turn = Math.PI - Math.atan2(rise, half);
  // The angle between the outward normals of two neighbouring sides, (0, -rise, half) and (rise, 0, half).
  const flapTurn = Math.acos((half * half) / (half * half + rise * rise));
  const motions = points.map((_, i) => turnAbout(lift(at(square, i)), lift(at(square, i + 1)), -share * turn));
  const faces: SceneFace[] = [{ rings: [square.map(lift)] }];
  const lines: SceneLine[] = sidesOf(square).map(onTable);
  const add = (ring: readonly Vec3[], from: number): void => {
    faces.push({ rings: [ring] });
    lines.push(...ring.map((p, i): SceneLine => ({ ends: [p, at(ring, i + 1)] })).slice(from));
  };
  points.forEach((point, i) => {
    const ring = [at(square, i), at(square, i + 1), point].map((p) => move3(motions[i] as Motion, lift(p)));
    add(ring, 1);
  });
  for (const { side, ring } of flaps) {
    const foot = turnAbout(lift(at(ring, 0)), lift(at(ring, 1)), flapTurn + TUCK);
    add(
      ring.map((p) => move3(motions[side] as Motion, move3(foot, lift(p)))),
      1,
    );
  }
  return { faces, lines };
}

/** A glued flap lies under its neighbour, not in it: turned a little further, radians. */
const TUCK = 0.02;
