import { mkdir, mkdtemp, readdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { fileTrouble } from './file-trouble.ts';
import { BadInput } from './terminal.ts';

export interface NamedFile {
  readonly name: string;
  readonly data: string | Uint8Array;
}

/**
 * Writes the files as the whole content of a folder, or nothing at all: into a temporary folder beside it, renamed when
 * complete. A folder that is already there is replaced only if it is empty, or was written by an earlier run and holds
 * no file that this run would not write anew: nothing of the maker's own is ever deleted.
 *
 * @param folder absolute path
 * @param shown how the maker wrote it, for messages
 * @throws BadInput where it may not, or cannot, be written; then nothing has changed.
 */
export async function writeFolder(folder: string, shown: string, files: readonly NamedFile[]): Promise<void> {
  let madeParent: string | undefined;
  let temporary: string | undefined;
  try {
    const target = await followLink(folder);
    await refuseForeign(target, shown, new Set(files.map(({ name }) => name)));
    const parent = dirname(target);
    madeParent = await mkdir(parent, { recursive: true });
    temporary = await mkdtemp(join(parent, `.${basename(target)}-`));
    const complete = join(temporary, 'new');
    await mkdir(complete);
    for (const { name, data } of files) await writeFile(join(complete, name), data);
    await replace(target, complete, join(temporary, 'old'));
    await rm(temporary, { recursive: true, force: true });
  } catch (error) {
    if (temporary !== undefined) await rm(temporary, { recursive: true, force: true });
    if (madeParent !== undefined) await rm(madeParent, { recursive: true, force: true });
    if (error instanceof BadInput) throw error;
    throw new BadInput([`${shown}: ${fileTrouble(error)} Nothing was written.`]);
  }
}

/** Where a link leads, so that the folder is replaced and not the link; a folder yet to be made is itself. */
async function followLink(folder: string): Promise<string> {
  return (await entriesOf(folder)) === null ? folder : await realpath(folder);
}

/** Puts the complete folder in the place of the one that may be there; that one comes back if it fails. */
async function replace(folder: string, complete: string, old: string): Promise<void> {
  const exists = (await entriesOf(folder)) !== null;
  if (exists) await rename(folder, old);
  try {
    await rename(complete, folder);
  } catch (error) {
    if (exists) await rename(old, folder);
    throw error;
  }
}

async function refuseForeign(folder: string, shown: string, names: ReadonlySet<string>): Promise<void> {
  const entries = await entriesOf(folder);
  if (entries === null || entries.length === 0) return;
  const advice = 'Name another folder with --out.';
  if (!entries.includes('report.json') || !(await isReport(join(folder, 'report.json'))))
    throw new BadInput([`${shown}: this folder holds files that Spirewright did not write. ${advice}`]);
  const foreign = entries.filter((name) => !names.has(name));
  if (foreign.length === 0) return;
  const listed = foreign.map((name) => `'${name}'`).join(', ');
  throw new BadInput([
    `${shown}: this folder also holds ${listed}, which this run would not write. Move it away, or name another folder with --out.`,
  ]);
}

/** Names in a folder; null where nothing is there. */
async function entriesOf(folder: string): Promise<readonly string[] | null> {
  try {
    return await readdir(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

async function isReport(path: string): Promise<boolean> {
  try {
    const report: unknown = (await stat(path)).isFile() && JSON.parse(await readFile(path, 'utf8'));
    return (
      typeof report === 'object' && report !== null && 'format' in report && report.format === 'spirewright-report'
    );
  } catch {
    return false;
  }
}
