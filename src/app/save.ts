import { bench, projectText } from './bench.ts';

/** A file name from a title: letters and digits, words joined by a hyphen. */
export const fileName = (title: string, ending: string): string => {
  const stem = title
    .normalize('NFKD')
    .replace(/[^\w\s-]/g, '')
    .trim()
    .replace(/[\s_-]+/g, '-')
    .toLowerCase();
  return `${stem === '' ? 'roofs' : stem}${ending}`;
};

/** Hands bytes to the browser as a download. */
export const download = (name: string, type: string, content: string | Uint8Array): void => {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the address while it starts the download; a minute is ample.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
};

export const projectTitle = (): string => String(bench.store.getState().file['title'] ?? 'roofs');

export const saveProject = (): void => {
  download(fileName(projectTitle(), '.roofs.json'), 'application/json', projectText());
  bench.markSaved();
};
