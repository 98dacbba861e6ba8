import { fileURLToPath } from 'node:url';
import { tableText } from '../../src/cli/columns.ts';
import { buildPage } from './build-page.ts';
import { firstLoad, totalGz } from './first-load.ts';
import { firstPaints } from './first-paint.ts';
import { layingTasks } from './laying-tasks.ts';
import { roofsOnSheets } from './nest-roofs.ts';
import { sheetResults, stripResults } from './nest-sets.ts';
import { exampleSpeeds, netSpeeds } from './net-speed.ts';
import { roofSpeeds } from './roof-speed.ts';
import { LEVELS, skeletonSpeeds } from './skeleton-speed.ts';
import { solidSpeeds } from './solid-speed.ts';
import { coverRatios, type StripRatio, zeroWasteRatios } from './strips-guillotine.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Instances published by others, beside the project; not part of it. */
const SETS = fileURLToPath(new URL('../../../shared/bench', import.meta.url));
const NO_SETS = 'The published sets are not there: they belong in ../shared/bench.\n';
const kilobytes = (bytes: number): string => `${(bytes / 1000).toFixed(1)} KB`;

/** A part of the bench by the word that chooses it. */
const PARTS: Readonly<Record<string, (seconds: number | undefined) => void | Promise<void>>> = {
  roofs: benchRoofs,
  solids: benchSolids,
  slopes: benchSlopes,
  nets: benchNets,
  page: benchPage,
  nest: benchTenRoofs,
  laying: benchLaying,
  strips: benchStrips,
  sheets: benchSheets,
  trimmer: benchTrimmer,
};
/** What is measured where no part is named: published sets of layouts take long and are asked for by name. */
const USUAL = ['roofs', 'solids', 'slopes', 'nets', 'page', 'nest', 'laying'];

/**
 * Prints speed as ratios within one run: milliseconds differ from machine to machine, ratios far less. The words choose parts; a
 * number is the processor seconds for each layout.
 */
export async function main(words: readonly string[]): Promise<number> {
  const seconds = words.map(Number).find((value) => value > 0);
  const parts = words.filter((word) => Number.isNaN(Number(word)));
  const unknown = parts.filter((word) => !(word in PARTS));
  if (unknown.length > 0) {
    process.stderr.write(
      `No such part of the bench: ${unknown.join(', ')}. There are ${Object.keys(PARTS).join(', ')}.\n`,
    );
    return 2;
  }
  for (const part of parts.length > 0 ? parts : USUAL) await PARTS[part]?.(seconds);
  return 0;
}

function benchRoofs(): void {
  const { yardstick, roofs } = roofSpeeds();
  print(
    'Parameter change: solid, net, flaps, fit and fold pose',
    'yardstick: computeVertexNormals, icosahedron detail 4',
  );
  const rows = roofs.map(({ title, panels, ms, ratio }) => [title, String(panels), ms.toFixed(3), ratio.toFixed(2)]);
  process.stdout.write(
    tableText(['Roof', 'Panels', 'ms', '× yardstick'], [...rows, ['(yardstick)', '', yardstick.toFixed(3), '1.00']]),
  );
}

function benchSolids(): void {
  print('Parameter change to solid, every example of the catalogue', 'aim: under 4 ms; the slowest ten of them');
  process.stdout.write(
    tableText(
      ['Kind', 'Example', 'Panels', 'ms'],
      solidSpeeds()
        .slice(0, 10)
        .map(({ kind, title, faces, ms }) => [kind, title, String(faces), ms.toFixed(3)]),
    ),
  );
}

function benchSlopes(): void {
  print(
    'Slopes over a random outline, a pitch for each side',
    `aim: 100 corners under 5 ms, 1000 under 500 ms; beside a polygon library's offsets at ${LEVELS} levels`,
  );
  process.stdout.write(
    tableText(
      ['Corners', 'ms', 'worst', 'offsets', '× offsets', 'grows as n to the'],
      skeletonSpeeds().map(({ corners, ms, worst, offsets, growth }) => [
        String(corners),
        ms.toFixed(2),
        worst.toFixed(2),
        offsets.toFixed(2),
        (ms / offsets).toFixed(2),
        growth?.toFixed(2) ?? '',
      ]),
    ),
  );
}

function benchNets(): void {
  print(
    'Parameter change to solid, layer, net, flaps and fold pose, every example of the catalogue',
    'aim: under 16 ms; as a shell in one piece and as a cover by panels, the slowest ten of them',
  );
  process.stdout.write(
    tableText(
      ['Kind', 'Example', 'As', 'Panels', 'ms'],
      exampleSpeeds()
        .slice(0, 10)
        .map(({ kind, title, as, faces, ms }) => [kind, title, as, String(faces), ms.toFixed(2)]),
    ),
  );

  print('Net and flaps of bell-cast spires of many bands', 'aim: 1000 panels under 100 ms, near-linear growth');
  process.stdout.write(
    tableText(
      ['Pieces', 'Panels', 'ms', 'grows as n to the', 'pose, ms'],
      netSpeeds().map(({ pieces, faces, ms, growth, pose }) => [
        pieces,
        String(faces),
        ms.toFixed(2),
        growth?.toFixed(2) ?? '',
        pose.toFixed(2),
      ]),
    ),
  );
}

async function benchLaying(seconds?: number): Promise<void> {
  print('Laying beside the page', 'aim: no task of the page over 50 ms while the worker searches; by the clock');
  const rows: string[][] = [];
  for (const copies of [1, 4]) {
    const found = await layingTasks(copies, seconds);
    rows.push([
      String(found.pieces),
      String(found.seconds),
      String(found.tasks),
      found.longest.toFixed(0),
      found.atEnd.toFixed(0),
    ]);
  }
  process.stdout.write(tableText(['Pieces', 's', 'tasks of 50 ms and more', 'longest, ms', 'at the end, ms'], rows));
}

async function benchPage(): Promise<void> {
  buildPage();
  print('First load', 'scripts and styles before the stage, packed');
  const files = firstLoad(`${root}dist`);
  const sizes = files.map(({ name, gz }) => [name, kilobytes(gz)]);
  process.stdout.write(tableText(['File', 'gz'], [...sizes, ['all', kilobytes(totalGz(files))]]));

  print('First paint', 'in turn with an empty page of react and r3f, nothing cached');
  const { bench, empty } = await firstPaints();
  process.stdout.write(
    tableText(
      ['Page', 'ms', '× empty'],
      [
        ['the bench', bench.toFixed(0), (bench / empty).toFixed(2)],
        ['an empty stage', empty.toFixed(0), '1.00'],
      ],
    ),
  );
}

function benchTenRoofs(seconds = 6): void {
  print('Ten roofs on A4', `aim: a first layout in 0.3 s, after 3 s within 2 % of the last; one core, ${seconds} s`);
  const { pieces, rows, first, costs, plain } = roofsOnSheets(seconds);
  const row = (title: string, time: number, cost: number): string[] => [title, time.toFixed(2), cost.toFixed(3)];
  process.stdout.write(
    tableText(
      [`${pieces} pieces`, 's', 'sheets used'],
      [
        row('first layout, in rows', rows.seconds, rows.cost),
        row('first of the search', first, costs[0]),
        row('after 3 s', 3, costs[1]),
        row('last', seconds, costs[2]),
        row('plain bottom-left fill', plain.seconds, plain.cost),
      ],
    ),
  );
}

function benchStrips(seconds = 60): void {
  print('Published strips', `density over the best ever published; seed 1, ${seconds} s each on one core`);
  const results = [...stripResults(SETS, seconds)];
  if (results.length === 0) process.stdout.write(NO_SETS);
  const rows = results.map(({ name, density, ratio }) => [name, (100 * density).toFixed(2), ratio.toFixed(4)]);
  const mean = results.reduce((sum, { ratio }) => sum + ratio, 0) / results.length;
  process.stdout.write(tableText(['Instance', 'density, %', 'ratio'], [...rows, ['mean', '', mean.toFixed(4)]]));
}

function benchSheets(seconds = 20): void {
  print('Published sheets without waste', `seed 1, ${seconds} s each on one core`);
  const results = [...sheetResults(SETS, seconds)];
  if (results.length === 0) process.stdout.write(NO_SETS);
  process.stdout.write(
    tableText(
      ['Instance', 'optimum', 'sheets', 'used'],
      results.map(({ name, optimum, sheets, cost }) => [name, String(optimum), String(sheets), cost.toFixed(3)]),
    ),
  );
}

function benchTrimmer(seconds = 5): void {
  const parts: readonly (readonly [string, Iterable<StripRatio>])[] = [
    ['Strips without waste by straight cuts: height over the optimum', zeroWasteRatios(SETS, seconds)],
    ['One sheet by straight cuts: area over the optimum', coverRatios(SETS, seconds)],
  ];
  for (const [title, found] of parts) {
    print(title, `seed 1, ${seconds} s each on one core`);
    const results = [...found];
    if (results.length === 0) process.stdout.write(NO_SETS);
    const mean = results.reduce((sum, { ratio }) => sum + ratio, 0) / results.length;
    const rows = results.map(({ name, items, ratio, cuts, byHand }) => [
      name,
      String(items),
      ratio.toFixed(4),
      String(cuts),
      String(byHand),
    ]);
    process.stdout.write(
      tableText(['Instance', 'items', 'ratio', 'cuts', 'by hand'], [...rows, ['mean', '', mean.toFixed(4), '', '']]),
    );
  }
}

const print = (title: string, about: string): void => void process.stdout.write(`\n${title} (${about})\n\n`);
