import { describe, expect, it } from 'vitest';
import { cutLayers } from '../../core/cut-layers.ts';
import { distanceToSegment, isInside, ringArea } from '../../core/geometry/polygon.ts';
import { distance2, lerp2, type Vec2 } from '../../core/geometry/vector.ts';
import { produce } from '../../core/pipeline.ts';
import { produceSample, sampleNames } from '../testing/samples.ts';
import { drawPiece, type PieceToDraw } from './draw-piece.ts';
import { labelCorners, type Stroke } from './drawing.ts';

/** Every piece of both samples, at its own size and at a tenth of it, where hardly any text has room. */
const items: readonly (readonly [string, PieceToDraw])[] = sampleNames.flatMap((name) =>
  [1, 0.3, 0.1].flatMap((factor) => {
    const { project } = produceSample(name);
    const smaller = produce({
      ...project,
      roofs: project.roofs.map((roof) => ({
        ...roof,
        body: null,
        overhang: null,
        fascia: null,
        shape: Object.fromEntries(
          Object.entries(produceShape(roof.kind)).map(([key, value]) => [
            key,
            typeof value === 'number' && key !== 'sides' ? value * factor : value,
          ]),
        ),
      })),
    });
    return smaller.roofs.flatMap(({ spec, made }) =>
      (made?.layers ?? []).flatMap((layer) =>
        layer.net.pieces.map(
          (piece, i) => [`${spec.id} ${piece.id} × ${factor}`, { roof: spec, layer, piece: i, copy: 0 }] as const,
        ),
      ),
    );
  }),
);

function produceShape(kind: string): Readonly<Record<string, number | string>> {
  if (kind === 'spire') return { sides: 8, side: 30, slant: 95 };
  if (kind === 'gable') return { width: 110, depth: 70, rise: 40, eave: 0, verge: 8 };
  return { width: 60, depth: 50, rise: 70 };
}

const segmentsOf = ({ points, closed }: Stroke): readonly (readonly [Vec2, Vec2])[] =>
  points.flatMap((point, i) => {
    const next = points[i + 1] ?? (closed ? points[0] : undefined);
    return next === undefined ? [] : [[point, next] as const];
  });

it('has pieces to look at', () => {
  expect(items.length).toBeGreaterThan(40);
});

describe.each(items)('%s', (_, item) => {
  const drawing = drawPiece(item);
  const piece = item.layer.net.pieces[item.piece];
  const rings = [...(piece?.panels ?? []), ...(piece?.flaps ?? [])].map(({ polygon }) => polygon);

  it('keeps every text inside one panel or flap', () => {
    for (const label of drawing.labels) {
      const corners = labelCorners(label);
      expect(rings.some((polygon) => corners.every((corner) => isInside(corner, polygon)))).toBe(true);
    }
  });

  it('lets no text touch a line', () => {
    for (const label of drawing.labels) {
      const corners = labelCorners(label);
      // Points all round the box and across it.
      const points = corners.flatMap((corner, i) =>
        Array.from({ length: 12 }, (_unused, k) => lerp2(corner, corners[(i + 1) % 4] as Vec2, k / 12)),
      );
      for (const stroke of drawing.strokes) {
        for (const [a, b] of segmentsOf(stroke)) {
          for (const point of points) expect(distanceToSegment(point, a, b)).toBeGreaterThan(0.25);
        }
      }
    }
  });

  it('draws outline, folds and flap feet once each, by kind', () => {
    const count = (role: string): number => drawing.strokes.filter((stroke) => stroke.role === role).length;
    const kinds = [...(piece?.folds ?? []), ...(piece?.flaps ?? [])].map(({ kind }) => kind);
    expect(count('cut')).toBe(1);
    expect(count('fold-mountain')).toBe(kinds.filter((kind) => kind === 'mountain').length);
    expect(count('fold-valley')).toBe(kinds.filter((kind) => kind === 'valley').length);
    expect(count('glue')).toBe(piece?.glueLines.length);
  });
});

describe('a project of many pieces', () => {
  // With hems, strips, a seat, a fascia and many small pieces.
  const { roofs } = produceSample('working-quay');

  it('says on every piece larger than a stamp whose it is', () => {
    for (const roof of roofs) {
      for (const layer of cutLayers(roof)) {
        layer.net.pieces.forEach((piece, i) => {
          if (ringArea(piece.outline) < 400) return;
          const texts = drawPiece({ roof: roof.spec, layer, piece: i, copy: 0 }).labels.map(({ text }) => text);
          expect(
            texts.some((text) => text.includes(roof.spec.title)),
            `${roof.spec.id} ${piece.id}`,
          ).toBe(true);
        });
      }
    }
  });

  it('names no two seams of a roof alike, whichever layer they are of', () => {
    for (const roof of roofs) {
      const marks = cutLayers(roof).flatMap(({ net }) => net.seams.map(({ mark }) => mark));
      expect(new Set(marks).size).toBe(marks.length);
    }
  });

  it('letters both halves of a strip, and the panels that a seat is glued to', () => {
    let [strips, lines] = [0, 0];
    for (const roof of roofs) {
      for (const layer of cutLayers(roof)) {
        layer.net.pieces.forEach((piece, i) => {
          const texts = drawPiece({ roof: roof.spec, layer, piece: i, copy: 0 }).labels.map(({ text }) => text);
          const mark = layer.net.seams.find(({ edge }) => edge === piece.strip?.edge)?.mark;
          if (mark) {
            strips++;
            expect(texts.filter((text) => text === mark)).toHaveLength(2);
          }
          for (const line of piece.glueLines) {
            if (!line.mark) continue;
            lines++;
            expect(texts).toContain(line.mark);
          }
        });
      }
    }
    expect([strips > 5, lines]).toEqual([true, 4]);
  });
});

describe('a roof of common size', () => {
  it('has both letters of each seam, each near its seam, and a name and an arrow on each panel', () => {
    const { roofs } = produceSample('harbour-gate');
    for (const { spec, made } of roofs) {
      for (const layer of made?.layers ?? []) {
        const drawings = layer.net.pieces.map((_, piece) => drawPiece({ roof: spec, layer, piece, copy: 0 }));
        for (const { mark, sides } of layer.net.seams) {
          for (const { piece, ends } of sides) {
            const near = drawings[piece]?.labels.filter(
              ({ text, at }) => text === mark && distanceToSegment(at, ends[0], ends[1]) < 6,
            );
            expect(near?.length, `${spec.id} ${mark}`).toBeGreaterThanOrEqual(1);
          }
        }
        layer.net.pieces.forEach((piece, i) => {
          const texts = drawings[i]?.labels.map(({ text }) => text) ?? [];
          for (const { face } of piece.panels) expect(texts).toContain(layer.solid.faces[face]?.title);
          const arrows =
            drawings[i]?.strokes.filter(({ role, points }) => role === 'rule' && points.length === 2) ?? [];
          expect(arrows).toHaveLength(piece.panels.length);
        });
      }
    }
  });

  it('points its arrows from the eave up the roof', () => {
    const { roofs } = produceSample('harbour-gate');
    const [spec, layer] = [roofs[0]?.spec, roofs[0]?.made?.layers[0]];
    if (spec === undefined || layer === undefined) throw new Error('no roof');
    const { strokes } = drawPiece({ roof: spec, layer, piece: 0, copy: 1 });
    const arrow = strokes.find(({ role, points }) => role === 'rule' && points.length === 2)?.points;
    const [foot, tip] = arrow as readonly [Vec2, Vec2];
    expect(tip[1]).toBeGreaterThan(foot[1]);
    expect(distance2(foot, tip)).toBeCloseTo(tip[1] - foot[1], 9);
  });
});

it('letters both sides of every seam, along it where a panel or a flap is narrow', () => {
  const { project } = produceSample('harbour-gate');
  const [first] = project.roofs;
  if (!first) throw new Error('the gate has no roof');
  const shape = { sides: 24, acrossCorners: 40, rise: 110 };
  const made = produce({ ...project, roofs: [{ ...first, kind: 'spire', shape, body: null, overhang: null }] })
    .roofs[0];
  const [layer] = made?.made?.layers ?? [];
  if (!made || !layer) throw new Error('no spire');
  const letters = layer.net.pieces.flatMap((_, i) =>
    drawPiece({ roof: made.spec, layer, piece: i, copy: 0 }).labels.map(({ text }) => text),
  );
  for (const { mark } of layer.net.seams) expect(letters.filter((text) => text === mark)).toHaveLength(2);
});
