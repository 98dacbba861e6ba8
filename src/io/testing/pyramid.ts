import { boxOf } from '../../core/geometry/polygon.ts';
import { add2, scale2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import type { Flap, Piece, Seam } from '../../core/net/net.ts';
import type { Production } from '../../core/pipeline.ts';
import type { PageSpec } from '../../core/project/project.ts';
import type { Edge, Solid } from '../../core/solid/solid.ts';

/**
 * A square pyramid made by hand, so that the writers can be tested without the stages before them. Eave 40 mm, slant
 * 50 mm; each second panel carries two 6 mm flaps.
 */

const EAVE = 40;
const SLANT = 50;
const RISE = Math.sqrt(SLANT ** 2 - (EAVE / 2) ** 2);
const HIP = Math.hypot(EAVE / 2, SLANT);
/** Between two sides of pitch p with square plan: cos = -cos² p. */
const HIP_DIHEDRAL = Math.acos(-((EAVE / 2 / SLANT) ** 2));

const sides = ['south', 'east', 'north', 'west'] as const;

const edges: readonly Edge[] = [
  ...sides.map((side, i) => ({
    id: `eave-${side}`,
    ends: [i, (i + 1) % 4] as const,
    faces: [i],
    role: 'eave' as const,
    length: EAVE,
    dihedral: null,
  })),
  ...sides.map((side, i) => ({
    id: `hip-${side}-${sides[(i + 1) % 4]}`,
    ends: [(i + 1) % 4, 4] as const,
    faces: [i, (i + 1) % 4],
    role: 'hip' as const,
    length: HIP,
    dihedral: HIP_DIHEDRAL,
  })),
];

const solid: Solid = {
  vertices: [
    [-20, -20, 0],
    [20, -20, 0],
    [20, 20, 0],
    [-20, 20, 0],
    [0, 0, RISE],
  ],
  faces: sides.map((side, i) => ({
    id: side,
    title: side.charAt(0).toUpperCase() + side.slice(1),
    loop: [i, (i + 1) % 4, 4],
    part: 'slope',
    side,
  })),
  edges,
};

const flapOn = (from: Vec2, to: Vec2): readonly Vec2[] => {
  const along = unit2(sub2(to, from));
  const out = scale2([-along[1], along[0]], 6);
  return [from, to, add2(add2(to, out), scale2(along, -8)), add2(add2(from, out), scale2(along, 8))];
};

const pieceFor = (face: number, hasFlaps: boolean): Piece => {
  const a: Vec2 = [0, 0];
  const b: Vec2 = [EAVE, 0];
  const peak: Vec2 = [EAVE / 2, SLANT];
  const right = flapOn(peak, b);
  const left = flapOn(a, peak);
  const outline: Vec2[] = hasFlaps ? [a, b, ...right.slice(2), peak, ...left.slice(2)] : [a, b, peak];
  const box = boxOf(outline);
  const move = (points: readonly Vec2[]): Vec2[] => points.map(([x, y]) => [x - box.minX, y - box.minY]);
  const flap = (edge: number, to: number, polygon: readonly Vec2[]): Flap => ({
    edge,
    from: face,
    to,
    panel: 0,
    polygon: move(polygon),
    base: 1,
    kind: 'mountain',
    angle: Math.PI - HIP_DIHEDRAL,
  });
  const side = sides[face] as (typeof sides)[number];
  return {
    id: side,
    title: side,
    ...(face < 2 ? {} : { same: sides[face - 2] as string }),
    outline: move(outline),
    panels: [{ face, polygon: move([a, b, peak]) }],
    flaps: hasFlaps ? [flap(4 + face, (face + 1) % 4, right), flap(4 + ((face + 3) % 4), (face + 3) % 4, left)] : [],
    hems: [],
    folds: [],
    glueLines: [],
    rulings: [],
    width: box.maxX - box.minX,
    height: box.maxY - box.minY,
  };
};

const pieces = sides.map((_, face) => pieceFor(face, face % 2 === 1));

const seams: readonly Seam[] = sides.map((_, i) => {
  const side = (piece: number, isRight: boolean): Seam['sides'][number] => {
    const [a, b, peak] = (pieces[piece]?.panels[0]?.polygon ?? []) as readonly [Vec2, Vec2, Vec2];
    return { piece, panel: 0, ends: isRight ? [b, peak] : [a, peak] };
  };
  return {
    edge: 4 + i,
    mark: 'ABCD'.charAt(i),
    join: 'flap',
    sides: [side(i, true), side((i + 1) % 4, false)],
  };
});

export const pyramidOn = (page: PageSpec, copies = 2): Production => {
  const layer = {
    as: 'cover',
    stock: ['slate'],
    pieces: 'per-panel',
    flaps: { width: 6, on: 'alternate', clearance: 0.5, least: 2 },
    thickness: 'ignore',
  } as const;
  const spec = {
    id: 'light',
    title: 'Light tower',
    copies,
    kind: 'pyramid',
    shape: { width: EAVE, depth: EAVE, slant: SLANT },
    body: null,
    overhang: null,
    fascia: null,
    neighbours: [],
    layers: [layer],
  } as const;
  const placements = pieces.slice(0, 2).map((_, piece) => ({
    roof: 0,
    layer: 0,
    piece,
    copy: 0,
    x: piece === 0 ? 10 : 110,
    y: piece === 0 ? 12 : 20,
    rotation: piece === 0 ? 0 : Math.PI / 2,
  }));
  return {
    project: {
      title: 'Samphire Staithe',
      units: 'mm',
      ruler: '1mm',
      scale: 1,
      seed: 1,
      page,
      stock: [
        {
          id: 'slate',
          name: 'Slate print',
          width: 304.8,
          height: 304.8,
          count: null,
          thickness: 0.25,
          direction: 'any',
          margin: 0,
          gap: 0,
        },
      ],
      roofs: [spec],
      layout: { cuts: 'free', prefer: 'sheets', offcuts: 'as-listed' },
      positions: [],
    },
    roofs: [
      {
        spec,
        made: {
          solid,
          layers: [{ spec: layer, thickness: 0, solid, net: { pieces, seams, closing: null } }],
          seat: null,
          fit: {
            overhang: null,
            eaves: [0],
            clearances: [],
            seams: [],
            peaks: [],
            seamMismatch: 0.25,
            peakGap: -0,
            rest: 0,
            sentence: 'Closes within 0.25 mm.',
          },
        },
        issues: [],
      },
    ],
    sheets: [{ stock: 0, index: 0, width: 304.8, height: 304.8, used: 0.021, placements }],
    materials: {
      byStock: [{ stock: 0, sheets: 1, area: 92903.04, used: 1 }],
      tape: 0,
      cut: 1234.5,
      glue: 0,
      score: 215.4,
    },
    issues: [
      {
        level: 'note',
        code: 'seam-taped',
        path: 'roofs[0]',
        numbers: { width: 1.25 },
        message: 'Seam “A” has no flap: join it with tape.',
      },
    ],
  };
};

export const a4: PageSpec = { name: 'A4', width: 210, height: 297, margin: 6, overlap: 10 };
