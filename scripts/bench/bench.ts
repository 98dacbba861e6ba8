import { fileURLToPath } from 'node:url';
import { tableText } from '../../src/cli/columns.ts';
import { buildPage } from './build-page.ts';
import { firstLoad, totalGz } from './first-load.ts';
import { firstPaints } from './first-paint.ts';
import { exampleSpeeds, netSpeeds } from './net-speed.ts';
import { roofSpeeds } from './roof-speed.ts';
import { LEVELS, skeletonSpeeds } from './skeleton-speed.ts';
import { solidSpeeds } from './solid-speed.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const kilobytes = (bytes: number): string => `${(bytes / 1000).toFixed(1)} KB`;

/** Prints speed as ratios within one run: milliseconds differ from machine to machine, ratios far less. */
export async function main(): Promise<number> {
  const { yardstick, roofs } = roofSpeeds();
  print(
    'Parameter change: solid, net, flaps, fit and fold pose',
    'yardstick: computeVertexNormals, icosahedron detail 4',
  );
  const rows = roofs.map(({ title, panels, ms, ratio }) => [title, String(panels), ms.toFixed(3), ratio.toFixed(2)]);
  process.stdout.write(
    tableText(['Roof', 'Panels', 'ms', '× yardstick'], [...rows, ['(yardstick)', '', yardstick.toFixed(3), '1.00']]),
  );

  print('Parameter change to solid, every example of the catalogue', 'aim: under 4 ms; the slowest ten of them');
  process.stdout.write(
    tableText(
      ['Kind', 'Example', 'Panels', 'ms'],
      solidSpeeds()
        .slice(0, 10)
        .map(({ kind, title, faces, ms }) => [kind, title, String(faces), ms.toFixed(3)]),
    ),
  );

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

  print(
    'Parameter change to solid, net, flaps and fold pose, every example of the catalogue',
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
  return 0;
}

const print = (title: string, about: string): void => void process.stdout.write(`\n${title} (${about})\n\n`);
