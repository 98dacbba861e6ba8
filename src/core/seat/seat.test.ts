import { describe, expect, it } from 'vitest';
import { cutLayers } from '../cut-layers.ts';
import { boxOf } from '../geometry/polygon.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import type { MadeRoof, SeatLayer } from '../make-roof.ts';
import { checkNet } from '../net/check-net.ts';
import { type Production, produce } from '../pipeline.ts';
import { readProject } from '../project/read-project.ts';
import { measureSolid } from '../solid/measure.ts';

const body = { width: 54, depth: 54, height: 60 };

function madeOf(seat: Record<string, unknown>, roof: Record<string, unknown> = {}, stock = {}): Production {
  const read = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Seats',
      units: 'mm',
      stock: [
        { id: 'card', width: 297, height: 420, direction: 'any', ...stock },
        { id: 'paper', width: 297, height: 420, direction: 'any' },
      ],
      roofs: [
        {
          id: 'gate',
          kind: 'pyramid',
          shape: { pitch: 40 },
          body,
          overhang: 5,
          seat: { stock: 'card', ...seat },
          layers: [{ as: 'cover', stock: 'card' }],
          ...roof,
        },
      ],
    }),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return produce(read.value.project);
}

const roofOf = (production: Production): MadeRoof => production.roofs[0] as MadeRoof;
const seatOf = (production: Production, isPaper = true): SeatLayer => {
  const seat = roofOf(production).made?.seat;
  if (!seat) throw new Error(JSON.stringify(production.issues));
  if (isPaper) expect(checkNet(seat.solid, seat.net, seat.spec.flaps, new Set(seat.seat.faces))).toEqual([]);
  return seat;
};
const codes = (production: Production): string[] => production.issues.map((issue) => `${issue.code} ${issue.path}`);

describe('a seat inside walls of 50 by 50', () => {
  const production = madeOf({ walls: 2, play: 0.3, height: 8 });
  const { solid, net, seat } = seatOf(production);
  const walls = seat.faces.map((face) => solid.faces[face]?.loop.map((v) => solid.vertices[v] as Vec3) ?? []);

  it('is a collar of 49.4 by 49.4, 8 mm high', () => {
    const box = boxOf(walls.flat().map(([x, y]): Vec2 => [x, y]));
    expect(box.maxX - box.minX).toBeCloseTo(49.4, 9);
    expect(box.maxY - box.minY).toBeCloseTo(49.4, 9);
    const faces = measureSolid(solid).faces;
    for (const face of seat.faces) expect(faces[face]?.slant).toBeCloseTo(8, 9);
  });

  it('is one strip of four sides with a flap to each slope and one that closes it', () => {
    expect(net.pieces.map((piece) => [piece.id, piece.panels.length, piece.flaps.length])).toEqual([
      ['collar-south-net', 4, 5],
    ]);
    expect(net.pieces[0]?.width).toBeCloseTo(4 * 49.4 + 6, 9);
  });

  it('reaches into the body by its height less what the slopes rise over wall and play', () => {
    expect(seat.depth).toBeCloseTo(8 - 2.3 * Math.tan((40 * Math.PI) / 180), 9);
  });

  it('is laid, counted and listed after the layers of the file, and drawn on the panels that it is glued to', () => {
    expect(cutLayers(roofOf(production))).toHaveLength(2);
    expect(production.sheets.flatMap((sheet) => sheet.placements.map(({ layer }) => layer))).toContain(1);
    const host = roofOf(production).made?.layers[0]?.net;
    const lines = host?.pieces.flatMap((piece) => piece.glueLines) ?? [];
    expect(lines.map((line) => line.mark).sort()).toEqual(
      net.seams.filter((seam) => seam.sides.some(({ piece }) => piece < 0)).map((seam) => seam.mark),
    );
    const marks = [...(host?.seams ?? []), ...net.seams].map((seam) => seam.mark);
    expect(new Set(marks).size).toBe(marks.length);
  });

  it('is the same by the plan of the inside', () => {
    expect(seatOf(madeOf({ inside: { width: 50, depth: 50 }, play: 0.3, height: 8 })).solid).toEqual(solid);
  });

  it('may be four pieces', () => {
    expect(seatOf(madeOf({ walls: 2, pieces: 'per-panel' })).net.pieces).toHaveLength(4);
  });
});

describe('a seat', () => {
  it('over the walls stands off them by its play, and half its thickness where that counts', () => {
    const plan = (thickness: number): number => {
      const { solid, seat } = seatOf(madeOf({ fits: 'outside', play: 0.5, thickness: 'allow' }, {}, { thickness }));
      const points = seat.faces
        .flatMap((face) => solid.faces[face]?.loop ?? [])
        .map((v) => solid.vertices[v]?.[0] ?? 0);
      return Math.max(...points);
    };
    expect(plan(0)).toBeCloseTo(27.5, 9);
  });

  it('on a plate stands under the eaves, the plate on the walls', () => {
    const production = madeOf({ walls: 2, plate: true });
    const { seat, net, solid } = seatOf(production);
    expect(roofOf(production).made?.fit.rest).toBe(60);
    expect([seat.foot, seat.depth]).toEqual([-8, 8]);
    const [plate, collar] = net.pieces;
    expect(plate?.flaps).toHaveLength(4);
    for (const { angle } of plate?.flaps ?? []) expect(angle).toBeCloseTo(Math.PI - (40 * Math.PI) / 180, 9);
    // Four flaps behind the walls of the collar, and the one that closes it.
    expect(collar?.flaps).toHaveLength(5);
    expect(measureSolid(solid).faces[seat.faces[0] as number]?.area).toBeCloseTo(64 * 64, 6);
  });

  it('under a cone is rolled, and meets it all round at one level', () => {
    const { net, solid, seat } = seatOf(
      madeOf({ walls: 1 }, { kind: 'cone', shape: { rise: 40 }, body: { diameter: 50, height: 60 } }),
    );
    const [strip] = net.pieces;
    expect(net.pieces).toHaveLength(1);
    // Round a circle of 2 x (25 - 1 - 0.3), and the flap that closes it.
    expect(strip?.width).toBeCloseTo(Math.PI * 47.4 + 6, 3);
    const tops = seat.faces.flatMap((face) => (solid.faces[face]?.loop ?? []).map((v) => solid.vertices[v]?.[2] ?? 0));
    expect(Math.max(...tops) - Math.min(...tops)).toBeCloseTo(8, 9);
  });

  it('follows a gable to its ridge at the ends', () => {
    const { solid, seat } = seatOf(madeOf({ walls: 2 }, { kind: 'gable', body: { width: 80, depth: 54, height: 30 } }));
    const heights = seat.faces.map((face) => measureSolid(solid).faces[face]?.slant ?? 0).sort((a, b) => a - b);
    const ridge = 8 + (27 - 2.3) * Math.tan((40 * Math.PI) / 180);
    expect(heights).toEqual([8, 8, ridge, ridge].map((height) => expect.closeTo(height, 9)));
  });

  it('of board is four boards cut to its outside, each lapping the next, and glued edge to edge', () => {
    const roof = { layers: [{ as: 'cover', stock: 'paper' }] };
    const production = madeOf({ walls: 2, as: 'board' }, roof, { thickness: 1.5 });
    const { net, solid, seat } = seatOf(production, false);
    expect(net.pieces.map((piece) => piece.panels.length)).toEqual([1, 1, 1, 1]);
    const points = seat.faces.flatMap((face) => solid.faces[face]?.loop ?? []).map((v) => solid.vertices[v]?.[0] ?? 0);
    expect(Math.max(...points)).toBeCloseTo(24.7, 9);
    // At either end of a side it runs to the corner or ends at the inside of its neighbour.
    for (const piece of net.pieces) expect(piece.width).toBeCloseTo(49.4 - 1.5, 9);
    expect(net.pieces.every((piece) => piece.flaps.length === 0)).toBe(true);
    expect(new Set(net.seams.map((seam) => seam.join))).toEqual(new Set(['glue']));
  });

  it('of board over the walls clears them by its play', () => {
    const roof = { layers: [{ as: 'cover', stock: 'paper' }] };
    const { solid, seat } = seatOf(madeOf({ fits: 'outside', as: 'board' }, roof, { thickness: 1.5 }), false);
    const points = seat.faces.flatMap((face) => solid.faces[face]?.loop ?? []).map((v) => solid.vertices[v]?.[0] ?? 0);
    expect(Math.max(...points)).toBeCloseTo(27 + 0.3 + 1.5, 9);
  });

  it('under a core of board is glued to the inside of it', () => {
    const roof = { layers: [{ as: 'board', stock: 'card' }] };
    const { seat } = seatOf(madeOf({ walls: 2, stock: 'paper' }, roof, { thickness: 1.5 }));
    const bare = seatOf(madeOf({ walls: 2, stock: 'paper' })).seat;
    // The inside of a slope lies lower by its thickness over the cosine of its pitch.
    expect(seat.foot).toBeCloseTo(bare.foot - 1.5 / Math.cos((40 * Math.PI) / 180), 6);
  });

  it('is refused with a reason where it cannot be', () => {
    const wide = { kind: 'spire', shape: { sides: 6, rise: 60 }, body: { sides: 6, acrossFlats: 50, height: 60 } };
    expect(codes(madeOf({ fits: 'outside', play: 6 }))).toEqual(['seat-outside-roof roofs[0].seat']);
    expect(codes(madeOf({ fits: 'outside', play: 6, plate: true }))).toEqual(['seat-outside-roof roofs[0].seat']);
    expect(codes(madeOf({ inside: { width: 15, depth: 15 }, play: 8 }))).toEqual(['seat-no-room roofs[0].seat']);
    expect(codes(madeOf({ walls: 4, height: 2 }))).toEqual(['seat-too-short roofs[0].seat.height']);
    expect(codes(madeOf({ inside: { diameter: 40 } }, wide))).toEqual(['seat-needs-plate roofs[0].seat']);
    expect(codes(madeOf({ walls: 2, plate: true }, { kind: 'gable' }))).toEqual(['seat-no-plate roofs[0].seat.plate']);
  });

  it('leaves no room for a hem that runs into it', () => {
    const hem = (width: number): string[] =>
      codes(madeOf({ fits: 'outside', play: 1 }, { layers: [{ as: 'cover', stock: 'card', hem: width }] }));
    expect(hem(4)).toEqual([]);
    expect(hem(4.1)).toEqual(['hem-meets-wall roofs[0].layers[0].hem']);
  });
});
