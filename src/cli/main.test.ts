import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { kinds } from '../core/roofs/catalogue.ts';
import { run } from './main.ts';

const assets = fileURLToPath(new URL('../../assets', import.meta.url));

const gate = {
  format: 'spirewright-project',
  version: 1,
  title: 'Harbour gate, Möwe № 2',
  units: 'in',
  ruler: '1/16in',
  stock: [{ id: 'slate', name: 'Slate print', width: '12in', height: '12in', count: 3, direction: 'two-way' }],
  roofs: [
    {
      id: 'gate',
      title: 'Gate tower',
      copies: 2,
      kind: 'pyramid',
      shape: { width: '1 3/4in', depth: '1 5/8in', rise: '2 1/2in' },
      body: { width: '1 1/2in', depth: '1 3/8in', height: '4in' },
      layers: [{ as: 'cover', stock: 'slate', pieces: 'per-panel', flaps: { width: '1/4in', on: 'alternate' } }],
    },
  ],
};

let place = '';
beforeEach(async () => {
  place = await mkdtemp(join(tmpdir(), 'spirewright-cli-'));
});
afterEach(async () => {
  await rm(place, { recursive: true });
});

const save = async (project: unknown): Promise<void> =>
  await writeFile(join(place, 'gate.roofs.json'), typeof project === 'string' ? project : JSON.stringify(project));

const spirewright = async (...words: string[]): Promise<{ code: number; out: string; err: string }> => {
  let [out, err] = ['', ''];
  let time = 0;
  // A second passes between two looks at the clock.
  const now = (): number => (time += 1000);
  const terminal = {
    out: (text: string) => (out += text),
    err: (text: string) => (err += text),
    cwd: place,
    assets,
    now,
  };
  const code = await run(words, terminal);
  return { code, out, err };
};

describe('produce', () => {
  it('writes every output, named after the title, and says so', async () => {
    await save(gate);
    const { code, out, err } = await spirewright('produce', 'gate.roofs.json', '--out', 'made');
    expect(err).toBe('');
    expect(code).toBe(0);
    const names = await readdir(join(place, 'made'));
    expect(names).toContain('harbour-gate-mowe-no-2.pdf');
    expect(names).toContain('report.json');
    expect(names.filter((name) => name.endsWith('.svg')).length).toBeGreaterThan(0);
    expect(out.trim().split('\n').sort()).toEqual(names.map((name) => join('made', name)).sort());
    const pdf = await readFile(join(place, 'made', 'harbour-gate-mowe-no-2.pdf'));
    expect(pdf.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    const report = JSON.parse(await readFile(join(place, 'made', 'report.json'), 'utf8'));
    expect(report).toMatchObject({ format: 'spirewright-report', version: 1 });
    expect(report.roofs[0]).toMatchObject({ id: 'gate', kind: 'pyramid', copies: 2 });
    expect(await readdir(place)).toEqual(['gate.roofs.json', 'made']);
  });

  it('gives the same bytes from the same input', async () => {
    await save(gate);
    for (const folder of ['one', 'two'])
      await spirewright('produce', 'gate.roofs.json', '--out', folder, '--seed', '5');
    const names = await readdir(join(place, 'one'));
    expect(await readdir(join(place, 'two'))).toEqual(names);
    for (const name of names) {
      const [one, two] = await Promise.all(['one', 'two'].map((folder) => readFile(join(place, folder, name))));
      expect(one?.equals(two ?? Buffer.alloc(0)), name).toBe(true);
    }
  });

  it('writes only what --only names', async () => {
    await save(gate);
    await spirewright('produce', 'gate.roofs.json', '--out', 'made', '--only', 'report');
    expect(await readdir(join(place, 'made'))).toEqual(['report.json']);
  });

  it('with too little stock: writes everything else and exits 1', async () => {
    await save({ ...gate, stock: [{ ...gate.stock[0], width: '3in', height: '3in', count: 1 }] });
    const { code, err } = await spirewright('produce', 'gate.roofs.json', '--out', 'made');
    expect(code).toBe(1);
    expect(err).toMatch(/^error: gate\.roofs\.json: /);
    expect(await readdir(join(place, 'made'))).toContain('report.json');
  });

  it.each([
    ['no file', null, 'there is no such file'],
    ['text that is no JSON', '{', 'gate.roofs.json'],
    ['another format', { format: 'other' }, 'format'],
    ['two unknown keys', { ...gate, colour: 'red', sauce: 1 }, 'colour'],
    [
      'a rise in pounds',
      { ...gate, roofs: [{ ...gate.roofs[0], shape: { width: 40, depth: 40, rise: '3 lb' } }] },
      'rise',
    ],
    [
      'a slant shorter than the way to the middle',
      { ...gate, roofs: [{ ...gate.roofs[0], shape: { width: 60, depth: 60, slant: 20 } }] },
      'roofs[0].shape.slant',
    ],
  ])('%s: exit 2, one line an issue, nothing written', async (_, project, words) => {
    if (project !== null) await save(project);
    const before = await readdir(place);
    const { code, out, err } = await spirewright('produce', 'gate.roofs.json', '--out', 'made');
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(words);
    for (const line of err.trimEnd().split('\n')) expect(line).toMatch(/^gate\.roofs\.json: \S/);
    expect(await readdir(place)).toEqual(before);
  });

  it('stops by the clock where that is asked for, and says so', async () => {
    await save(gate);
    const { code, err } = await spirewright(
      'produce',
      'gate.roofs.json',
      '--out',
      'made',
      '--only',
      'report',
      '--effort',
      '2',
    );
    expect(code).toBe(0);
    expect(err).toBe('--effort: the layout was searched for by the clock, 2 s; another run may find another.\n');
  });

  it('lays the same for the same rounds', async () => {
    await save(gate);
    const made = async (out: string): Promise<string> => {
      await spirewright('produce', 'gate.roofs.json', '--out', out, '--only', 'report', '--rounds', '5');
      return await readFile(join(place, out, 'report.json'), 'utf8');
    };
    expect(await made('one')).toBe(await made('two'));
  });
});

describe('check', () => {
  it('prints a table and exits 0 where all fits', async () => {
    await save(gate);
    const { code, out, err } = await spirewright('check', 'gate.roofs.json');
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('Gate tower');
    expect(out).toMatch(/closes/i);
  });

  it('tells of each paper what is used and left, what it costs and how often the trimmer falls', async () => {
    const price = { amount: 4, currency: 'EUR', sheets: 8 };
    await save({ ...gate, layout: { cuts: 'strips' }, stock: [{ ...gate.stock[0], price }] });
    const { out } = await spirewright('check', 'gate.roofs.json');
    expect(out).toMatch(/Paper +Sheets +Used +Left of the last +Straight cuts +Price/);
    expect(out).toMatch(/Slate print +1 +\d+ % +.+ in by .+ in +\d+ +0\.50 EUR/);
  });

  it('exits 1 where something does not fit, 2 on bad input', async () => {
    await save({ ...gate, stock: [{ ...gate.stock[0], width: '2in', height: '2in' }] });
    expect((await spirewright('check', 'gate.roofs.json')).code).toBe(1);
    await save({ ...gate, version: 99 });
    expect((await spirewright('check', 'gate.roofs.json')).code).toBe(2);
  });

  it('prints with --json what produce writes', async () => {
    await save(gate);
    const { out } = await spirewright('check', 'gate.roofs.json', '--json');
    await spirewright('produce', 'gate.roofs.json', '--out', 'made', '--only', 'report');
    expect(out).toBe(await readFile(join(place, 'made', 'report.json'), 'utf8'));
  });
});

describe('kinds', () => {
  it('lists every kind and every parameter, as text and as JSON', async () => {
    const text = (await spirewright('kinds')).out;
    const listed = JSON.parse((await spirewright('kinds', '--json')).out).kinds;
    expect(listed.map(({ id }: { id: string }) => id)).toEqual(kinds.map(({ id }) => id));
    for (const [index, { title, params }] of kinds.entries()) {
      expect(text).toContain(title);
      expect(listed[index].parameters).toHaveLength(params.length);
      for (const { label } of params) expect(text).toContain(label);
    }
  });

  it('says what may be left out', async () => {
    const { kinds: listed } = JSON.parse((await spirewright('kinds', '--json')).out);
    const optional = kinds.flatMap(({ params }) => params.map((param) => param.optional));
    const said = listed.flatMap(({ parameters }: { parameters: { optional?: boolean }[] }) => parameters);
    expect(said.map((param: { optional?: boolean }) => param.optional)).toEqual(optional);
    expect((await spirewright('kinds')).out).toMatch(/endPitch .* may be left out /);
  });

  it('gives pitches in degrees', async () => {
    const { kinds: listed } = JSON.parse((await spirewright('kinds', '--json')).out);
    const pitch = listed[0].parameters.find(({ quantity }: { quantity: string }) => quantity === 'pitch');
    expect(pitch).toMatchObject({ unit: 'degrees' });
    expect(pitch.max).toBeGreaterThan(45);
  });
});

describe('anything else', () => {
  it('an unknown option is refused on stderr with exit 2', async () => {
    const { code, out, err } = await spirewright('check', 'x', '--quick');
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('--quick');
  });

  it('help goes to stdout with exit 0', async () => {
    const { code, out, err } = await spirewright('produce', '--help');
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('--out DIR');
  });
});
