import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type NestPlacement, nestSheets, nestStrip, type Ring } from '../../src/core/layout/nest/nest.ts';
import { proveNest } from './nest-proof.ts';

/** The classic instances of irregular strip packing, as the published tables list them. */
const CLASSICS = [
  'albano',
  'dagli',
  'fu',
  'jakobs1',
  'jakobs2',
  'mao',
  'marques',
  'shapes0',
  'shapes1',
  'shapes2',
  'shirts',
  'swim',
  'trousers',
] as const;
const SEED = 1;
/** Overlap up to this counts as touching, in the unit of the instance (its sheet is some 1,000 wide). */
export const TOUCHING = 1e-6;

interface Instance {
  readonly items: readonly { readonly quantity: number; readonly polygon: Ring }[];
  readonly allowed_rotations_deg: readonly number[];
  readonly total_area: number;
  readonly strip_height: number;
  readonly best_known: { readonly density: number };
  readonly sheet: readonly [number, number];
  readonly optimum: { readonly sheets: number };
}

/** Seconds of this process on the processor: on a busy machine the clock on the wall says little. */
export const cpuSeconds = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

const read = (file: string): Instance => JSON.parse(readFileSync(file, 'utf8')) as Instance;
const outlinesOf = ({ items }: Instance): readonly Ring[] =>
  items.flatMap(({ quantity, polygon }) => Array.from({ length: quantity }, () => polygon));
const turnsOf = ({ allowed_rotations_deg }: Instance): readonly number[] =>
  allowed_rotations_deg.map((degrees) => (degrees * Math.PI) / 180);

function prove(
  name: string,
  outlines: readonly Ring[],
  placements: readonly NestPlacement[],
  width: number,
  height: number,
): void {
  const { overlap, outside, missing } = proveNest(outlines, placements, width, height);
  if (missing > 0 || overlap > TOUCHING || outside > TOUCHING)
    throw new Error(`the layout of ${name} is wrong: overlap ${overlap}, outside ${outside}, missing ${missing}`);
}

export interface StripResult {
  readonly name: string;
  readonly density: number;
  /** Density over the best ever published. */
  readonly ratio: number;
}

export function* stripResults(folder: string, seconds: number): Generator<StripResult> {
  for (const name of CLASSICS) {
    const file = join(folder, 'esicup', `${name}.json`);
    if (!existsSync(file)) continue;
    const instance = read(file);
    const outlines = outlinesOf(instance);
    const turns = turnsOf(instance);
    const start = cpuSeconds();
    const search = nestStrip(
      outlines.map((outline) => ({ outline, turns })),
      instance.strip_height,
      { seed: SEED, rounds: 0, share: () => (cpuSeconds() - start) / seconds },
    );
    let [length, placements] = [Number.POSITIVE_INFINITY, [] as readonly NestPlacement[]];
    for (const step of search) ({ length, placements } = step);
    prove(name, outlines, placements, length, instance.strip_height);
    const density = instance.total_area / (instance.strip_height * length);
    yield { name, density, ratio: density / instance.best_known.density };
  }
}

export interface SheetResult {
  readonly name: string;
  readonly optimum: number;
  readonly sheets: number;
  /** Sheets, of the last one only the share that is used. */
  readonly cost: number;
}

export function* sheetResults(folder: string, seconds: number): Generator<SheetResult> {
  const sets = join(folder, 'multibin');
  if (!existsSync(sets)) return;
  for (const file of readdirSync(sets).sort()) {
    if (!file.endsWith('.json')) continue;
    const instance = read(join(sets, file));
    const outlines = outlinesOf(instance);
    const [width, height] = instance.sheet;
    const turns = turnsOf(instance);
    const outline: Ring = [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ];
    const start = cpuSeconds();
    const search = nestSheets(
      {
        pieces: outlines.map((ring) => ({ outline: ring, choices: [{ kind: 0, turns }] })),
        sheets: [{ parts: [outline], count: null, gap: 0, taken: [] }],
      },
      { seed: SEED, rounds: 0, share: () => (cpuSeconds() - start) / seconds },
    );
    let [cost, placements] = [0, [] as readonly NestPlacement[]];
    for (const { layout } of search) ({ cost, placements } = layout);
    prove(file, outlines, placements, width, height);
    const sheets = new Set(placements.map(({ sheet }) => sheet)).size;
    yield { name: file.replace('.json', ''), optimum: instance.optimum.sheets, sheets, cost };
  }
}
