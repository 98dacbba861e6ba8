import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/**
 * The first of these programs found on the PATH, with its whole path; null where none is.
 * @param {readonly string[]} names
 * @returns {string | null}
 */
export const findProgram = (names) => {
  for (const name of names)
    for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
      const path = join(folder, name);
      try {
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // Not here: look on.
      }
    }
  return null;
};

/**
 * A Chromium that is already on this machine; CHROMIUM in the environment names another one.
 * @returns {string | null}
 */
export const findChromium = () =>
  process.env['CHROMIUM'] || findProgram(['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']);

/**
 * Draws PDF pages as pictures: the second, independent reader of our PDF.
 * @returns {string | null}
 */
export const findPdftoppm = () => findProgram(['pdftoppm']);
