import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Width and height of every page, in points, as pdf.js (which we did not write) reads them. */
export async function pdfPages(bytes: Uint8Array): Promise<readonly (readonly [number, number])[]> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const pdf = await task.promise;
  try {
    const numbers = Array.from({ length: pdf.numPages }, (_, index) => index + 1);
    const pages = await Promise.all(numbers.map((number) => pdf.getPage(number)));
    return pages.map(({ view: [left = 0, bottom = 0, right = 0, top = 0] }) => [right - left, top - bottom] as const);
  } finally {
    await task.destroy();
  }
}
