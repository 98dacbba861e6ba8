import type { Random } from '../../random.ts';
import type { Construction, OpenSheet } from './construct.ts';
import { restShare } from './cost.ts';
import { type Bin, Field, type FieldFixed, type Spots } from './field.ts';
import type { Job } from './job.ts';

/** A layout set up for the search with something changed, so that pieces overlap. */
export interface Trial {
  readonly field: Field;
  readonly sheets: readonly OpenSheet[];
  /** Of each item of the field: the piece that it is. */
  readonly pieces: readonly number[];
  readonly leftOut: readonly number[];
}

/** So many pieces without a place are tried at once, at most. */
const MOST_ADDED = 3;

/** Some pieces without a place thrown among the others; null where every piece has one. */
export function addLeftOut(job: Job, { sheets, leftOut }: Construction, random: Random): Trial | null {
  const kinds = new Set(sheets.map(({ kind }) => kind));
  const able = leftOut.filter((piece) => job.pieces[piece]!.kinds.some((kind) => kinds.has(kind)));
  const added: number[] = [];
  const most = 1 + Math.floor(random() * MOST_ADDED);
  while (added.length < most && able.length > 0) added.push(...able.splice(Math.floor(random() * able.length), 1));
  if (added.length === 0) return null;
  const rest = leftOut.filter((piece) => !added.includes(piece));
  return setUp(job, sheets, added, rest, random);
}

/** The pieces of one sheet thrown among those of the others; null where they cannot have room. */
export function emptySheet(job: Job, { sheets, leftOut }: Construction, random: Random): Trial | null {
  const free = sheets.filter((sheet) => sheet.laid.length > 0 && !isLocked(job, sheet));
  const worst = Math.max(...free.map(({ kind }) => job.kinds[kind]!.rank));
  const candidates = free
    .filter(({ kind }) => job.kinds[kind]!.rank === worst)
    .sort((a, b) => laidArea(job, a) - laidArea(job, b));
  // Mostly the emptiest.
  const emptied = candidates[Math.floor(random() * random() * candidates.length)];
  if (!emptied) return null;
  if (!haveOthersRoom(job, sheets, emptied)) return null;
  const others = sheets.filter((sheet) => sheet !== emptied);
  const moved = emptied.laid.map(({ piece }) => piece);
  const isHomeless = (piece: number): boolean =>
    !others.some(({ kind }) => (job.pieces[piece]!.poses[kind]?.length ?? 0) > 0);
  return moved.some(isHomeless) ? null : setUp(job, others, moved, leftOut, random);
}

/** Whether some sheet could be done without, by the area of all pieces, or a kind that is liked better could take its pieces. */
export function mayBeSpared(job: Job, { sheets }: Construction): boolean {
  return sheets.some(
    (sheet) =>
      sheet.laid.length > 0 &&
      !isLocked(job, sheet) &&
      (job.kinds[sheet.kind]!.rank > 0 || haveOthersRoom(job, sheets, sheet)),
  );
}

function haveOthersRoom(job: Job, sheets: readonly OpenSheet[], without: OpenSheet): boolean {
  const need = sheets.reduce((sum, sheet) => sum + laidArea(job, sheet), 0);
  const room = sheets.reduce((sum, sheet) => (sheet === without ? sum : sum + roomOf(job, sheet)), 0);
  return need <= room;
}

/** The sheet with the most room made narrower by a share of what is used; null where there is none. */
export function pressLast(job: Job, { sheets, leftOut }: Construction, cut: number, random: Random): Trial | null {
  const free = sheets.filter((sheet) => sheet.laid.length > 0 && !isLocked(job, sheet));
  const last = free.reduce<OpenSheet | null>((a, b) => (a && restShare(a) >= restShare(b) ? a : b), null);
  if (!last) return null;
  const trial = setUp(job, sheets, [], leftOut, random);
  const bin = trial.field.bins[sheets.indexOf(last)]!;
  const reachX = Math.max(...last.laid.map(({ x, pose }) => x + pose.shape.width)) - bin.minX;
  const reachY = Math.max(...last.laid.map(({ y, pose }) => y + pose.shape.height)) - bin.minY;
  const isWide = reachX / (bin.maxX - bin.minX) < reachY / (bin.maxY - bin.minY);
  if (isWide) bin.maxX = bin.minX + reachX * (1 - cut);
  else bin.maxY = bin.minY + reachY * (1 - cut);
  trial.field.restore(trial.field.spots());
  return trial;
}

/** The layout that a trial's spots make: emptied sheets dropped, the fullest first. */
export function layoutFrom(job: Job, { field, sheets, pieces, leftOut }: Trial, spots: Spots): Construction {
  const filled = sheets.map((sheet, bin): OpenSheet => {
    const laid = pieces.flatMap((piece, item) => {
      if (spots.bin[item] !== bin) return [];
      const pose = field.posesIn(item, bin)[spots.pose[item]!]!;
      return [{ piece, pose, x: spots.x[item]!, y: spots.y[item]! }];
    });
    return { ...sheet, laid };
  });
  return { sheets: renumbered(job, filled), leftOut };
}

/** Sheets with nothing locked on them have no names of their own: they take the first free numbers, the fullest first. */
function renumbered(job: Job, sheets: readonly OpenSheet[]): readonly OpenSheet[] {
  const locked = sheets.filter((sheet) => isLocked(job, sheet));
  const free = sheets
    .filter((sheet) => sheet.laid.length > 0 && !isLocked(job, sheet))
    .sort((a, b) => a.kind - b.kind || restShare(a) - restShare(b) || a.sheet - b.sheet);
  const next = job.kinds.map(() => 0);
  return [
    ...locked,
    ...free.map((sheet): OpenSheet => {
      const { kind } = sheet;
      while (locked.some((one) => one.kind === kind && one.sheet === next[kind])) next[kind]!++;
      return { ...sheet, sheet: next[kind]!++ };
    }),
  ];
}

const isLocked = (job: Job, { kind, fixed }: OpenSheet): boolean => fixed.length > job.kinds[kind]!.round.length;

const laidArea = (job: Job, { laid }: OpenSheet): number =>
  laid.reduce((sum, { piece }) => sum + job.pieces[piece]!.area, 0);

function roomOf(job: Job, { kind, fixed }: OpenSheet): number {
  const { area, round } = job.kinds[kind]!;
  return area - fixed.slice(round.length).reduce((sum, { shape }) => sum + shape.area, 0);
}

/** A field of sheets as they are laid, with further pieces anywhere on them. */
function setUp(
  job: Job,
  sheets: readonly OpenSheet[],
  added: readonly number[],
  leftOut: readonly number[],
  random: Random,
): Trial {
  const bins = sheets.map(({ kind, box }): Bin => ({ kind, gap: job.kinds[kind]!.gap, ...box }));
  const fixed = sheets.flatMap((sheet, bin) => sheet.fixed.map((one): FieldFixed => ({ ...one, bin })));
  const laid = sheets.flatMap((sheet, bin) => sheet.laid.map((one) => ({ ...one, bin })));
  const pieces = [...laid.map(({ piece }) => piece), ...added];
  const field = new Field(
    job.shapes,
    pieces.map((piece) => job.pieces[piece]!),
    bins,
    fixed,
  );
  laid.forEach(({ bin, pose, x, y }, item) => {
    field.put(item, bin, field.posesIn(item, bin).indexOf(pose), x, y);
  });
  added.forEach((_, k) => {
    const item = laid.length + k;
    const able = bins.map((_bin, bin) => bin).filter((bin) => field.posesIn(item, bin).length > 0);
    const bin = able[Math.floor(random() * able.length)]!;
    const { minX, minY, maxX, maxY } = bins[bin]!;
    const pose = Math.floor(random() * field.posesIn(item, bin).length);
    field.put(item, bin, pose, minX + random() * (maxX - minX), minY + random() * (maxY - minY));
  });
  field.measureAll();
  return { field, sheets, pieces, leftOut };
}
