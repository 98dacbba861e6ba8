import { describe, expect, it } from 'vitest';
import { fromDegrees, MM_PER_INCH } from '../units/units.ts';
import type { Project } from './project.ts';
import type { ProjectFile } from './project-file.ts';
import { readProject, resolveProject } from './read-project.ts';
import { cover, gate, gateFile, slate } from './testing/gate-file.ts';
import { writeProject } from './write-project.ts';

function projectOf(file: unknown): Project {
  const result = resolveProject(file);
  if (!result.ok) throw new Error(result.issues.map((issue) => `${issue.path}: ${issue.message}`).join('\n'));
  return result.value.project;
}

describe('a file that is right', () => {
  it('becomes mm', () => {
    const project = projectOf(gateFile());
    const inch = MM_PER_INCH;
    expect(project).toEqual({
      title: 'Harbour gate',
      units: 'in',
      ruler: '1/16in',
      scale: 1,
      seed: 1,
      page: { name: 'Letter', width: 8.5 * inch, height: 11 * inch, margin: 6, overlap: 10 },
      stock: [
        {
          id: 'slate',
          name: 'Slate print',
          width: 12 * inch,
          height: 11.5 * inch,
          count: 3,
          thickness: 0.25,
          direction: 'two-way',
          margin: 0,
          gap: 0,
        },
      ],
      roofs: [
        {
          id: 'gate',
          title: 'Gate tower',
          copies: 2,
          kind: 'pyramid',
          shape: { width: 1.75 * inch, depth: 1.625 * inch, rise: 2.5 * inch, peakX: 0, peakY: 0 },
          body: {
            outline: [
              [-0.75 * inch, -0.6875 * inch],
              [0.75 * inch, -0.6875 * inch],
              [0.75 * inch, 0.6875 * inch],
              [-0.75 * inch, 0.6875 * inch],
            ],
            height: 4 * inch,
            rectangle: { width: 1.5 * inch, depth: 1.375 * inch },
          },
          overhang: null,
          fascia: null,
          neighbours: [],
          layers: [
            {
              as: 'cover',
              stock: ['slate'],
              pieces: 'per-panel',
              flaps: { width: 0.1875 * inch, on: 'one-side', clearance: 0.5, least: 2, instead: 'tape' },
              thickness: 'ignore',
            },
          ],
        },
      ],
      layout: { cuts: 'free', prefer: 'sheets', offcuts: 'as-listed' },
      positions: [],
    });
  });

  it('is kept as typed, keys in their order', () => {
    const text = JSON.stringify({ roofs: [gate()], ...gateFile({ ruler: '1/32in', scale: '1 : 2' }) });
    const read = readProject(text);
    if (!read.ok) throw new Error('not read');
    expect(JSON.stringify(read.value.file)).toBe(text);
    expect(JSON.stringify(JSON.parse(writeProject(read.value.file)))).toBe(text);
  });

  it('says the same after writing and reading', () => {
    const file = gateFile({ scale: 0.5, page: { size: 'A3', margin: '1/4"' } }) as unknown as ProjectFile;
    const read = readProject(writeProject(file));
    expect(read.ok && read.value.project).toEqual(projectOf(file));
  });

  it('is not changed', () => {
    const file = gateFile();
    const before = structuredClone(file);
    resolveProject(file);
    expect(file).toEqual(before);
  });

  it('gets the defaults of its units', () => {
    const plain = gateFile({
      units: 'mm',
      stock: [{ id: 'card', width: 210, height: '29.7cm' }],
      roofs: [gate({ title: undefined, copies: undefined, layers: [{ as: 'shell', stock: ['card'] }] })],
    });
    const project = projectOf(plain);
    expect(project.ruler).toBe('1mm');
    expect(project.page).toMatchObject({ name: 'A4', width: 210, height: 297 });
    expect(project.stock[0]).toEqual({
      id: 'card',
      name: 'card',
      width: 210,
      height: 297,
      count: null,
      thickness: 0,
      direction: 'one-way',
      margin: 0,
      gap: 0,
    });
    expect(project.roofs[0]).toMatchObject({ title: 'gate', copies: 1 });
    expect(project.roofs[0]?.layers[0]).toEqual({
      as: 'shell',
      stock: ['card'],
      pieces: 'one-piece',
      flaps: { width: 6, on: 'alternate', clearance: 0.5, least: 2, instead: 'tape' },
      thickness: 'ignore',
    });
    expect(
      projectOf(gateFile({ roofs: [gate({ layers: [cover({ flaps: {} })] })] })).roofs[0]?.layers[0]?.flaps.width,
    ).toBe(MM_PER_INCH / 4);
  });

  it('reads an offcut from any corner, going round either way', () => {
    const outline = [
      ['20mm', 10],
      ['20mm', 30],
      ['5cm', 20],
    ];
    const read = (corners: unknown): unknown =>
      projectOf(gateFile({ stock: [{ id: 'slate', outline: corners }] })).stock[0];
    const corners = [
      [0, 0],
      [30, 10],
      [0, 20],
    ];
    expect(read(outline)).toMatchObject({ width: 30, height: 20, count: 1 });
    for (const order of [outline, outline.toReversed()]) {
      const { outline: ring } = read(order) as { readonly outline: readonly (readonly number[])[] };
      const found = ring.map((corner) => corners.findIndex(([x, y]) => x === corner[0] && y === corner[1]));
      expect([0, 1, 2].map((i) => (found[i] ?? 0) - (found[0] ?? 0)).map((step) => (step + 3) % 3)).toEqual([0, 1, 2]);
    }
  });

  it('reads what a paper costs and what is printed on it, a printer, cuts and positions', () => {
    const price = { amount: 3.5, currency: 'EUR', sheets: 8 };
    const picture = { file: 'data:image/png;base64,AAAA', width: '2in' };
    const project = projectOf(
      gateFile({
        stock: [slate({ price, picture }), { id: 'plain', width: 90, height: 90, print: { pattern: 'checks' } }],
        page: { correction: { across: '100.4mm' } },
        layout: { cuts: 'strips', offcuts: 'first' },
        positions: [{ roof: 'gate', layer: 0, piece: 'south', stock: 'slate', x: '1in', y: 7, rotation: 180 }],
      }),
    );
    expect(project.stock[0]).toMatchObject({ price, picture: { ...picture, width: 2 * MM_PER_INCH } });
    expect(project.stock[1]).toMatchObject({ print: { pattern: 'checks', repeat: 12 } });
    expect(project.page.correction).toEqual({ across: 100.4, up: 100 });
    expect(project.layout).toEqual({ cuts: 'strips', prefer: 'sheets', offcuts: 'first' });
    expect(project.positions).toEqual([
      {
        roof: 'gate',
        layer: 0,
        piece: 'south',
        copy: 0,
        stock: 'slate',
        sheet: 0,
        x: MM_PER_INCH,
        y: 7,
        rotation: Math.PI,
        locked: false,
      },
    ]);
  });

  it('may name its schema for editors', () => {
    expect(resolveProject({ $schema: './project.schema.json', ...gateFile() }).issues).toEqual([]);
  });

  it('lays a landscape page on its side', () => {
    const page = { size: 'A4', orientation: 'landscape', overlap: '12mm' };
    expect(projectOf(gateFile({ page })).page).toEqual({ name: 'A4', width: 297, height: 210, margin: 6, overlap: 12 });
  });

  it('scales shape, body and overhang, not paper, flaps and pages', () => {
    const real = gate({
      shape: { pitch: '8/12' },
      body: { width: '10m', depth: '8m', height: '5m' },
      overhang: { eave: '0.6m', verge: '0.3m' },
    });
    const roof = { ...real, kind: 'gable' };
    const project = projectOf(gateFile({ scale: '1:50', roofs: [roof] }));
    const [spec] = project.roofs;
    expect(project.scale).toBe(0.02);
    expect(spec?.body?.rectangle?.width).toBeCloseTo(200, 9);
    expect(spec?.body?.height).toBeCloseTo(100, 9);
    expect(spec?.overhang?.eave).toBeCloseTo(12, 9);
    expect(spec?.overhang?.verge).toBeCloseTo(6, 9);
    expect(spec?.shape['pitch']).toBeCloseTo(Math.atan2(8, 12), 12);
    expect(spec?.layers[0]?.flaps.width).toBe(0.1875 * MM_PER_INCH);
    expect(project.stock[0]?.width).toBe(12 * MM_PER_INCH);
    expect(project.page.margin).toBe(6);
  });

  it('reads pitches as degrees', () => {
    const shape = { width: 40, depth: 50, pitch: 52, peakX: '-3mm' };
    expect(projectOf(gateFile({ roofs: [gate({ shape })] })).roofs[0]?.shape).toEqual({
      width: 40,
      depth: 50,
      pitch: fromDegrees(52),
      peakX: -3,
      peakY: 0,
    });
  });

  it.each([
    [{ sides: 6, side: 20, height: 70 }, 20],
    [{ sides: 6, acrossCorners: 44, height: 70 }, 22],
    [{ sides: 8, acrossFlats: 60, height: 70 }, 30 / Math.cos(Math.PI / 8)],
    [{ sides: 5, side: 24, height: 70 }, 24 / (2 * Math.sin(Math.PI / 5))],
  ])('puts a regular body with one side to the south: %o', (body, radius) => {
    const outline = projectOf(gateFile({ roofs: [gate({ body })] })).roofs[0]?.body?.outline ?? [];
    expect(outline).toHaveLength(body.sides);
    for (const [x, y] of outline) expect(Math.hypot(x, y)).toBeCloseTo(radius, 9);
    const [[x0, y0] = [0, 0], [x1, y1] = [0, 0]] = outline;
    expect(y0).toBeCloseTo(y1, 9);
    expect(y0).toBeLessThan(0);
    expect(x0).toBeCloseTo(-x1, 9);
    expect(x1).toBeGreaterThan(0);
  });

  it('gives one length of overhang to eave and verge', () => {
    const roof = gate({ shape: { slant: '3 1/8in' }, overhang: '3/16in' });
    const [spec] = projectOf(gateFile({ roofs: [roof] })).roofs;
    expect(spec?.overhang).toEqual({ eave: 0.1875 * MM_PER_INCH, verge: 0.1875 * MM_PER_INCH });
    expect(spec?.shape).toEqual({ slant: 3.125 * MM_PER_INCH, peakX: 0, peakY: 0 });
  });
});
