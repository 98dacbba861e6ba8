import { bench } from '../bench.ts';
import { exactText } from '../fields/typed-text.ts';
import { type FilePath, getAt, type JsonObject, setAt } from '../state/file-path.ts';

/** Points along the longer side of a picture as it is kept: finer than paper is looked at, and a project stays small. */
const MOST_POINTS = 1024;
const QUALITY = 0.85;
/** A picture that says nothing of its size shows a whole sheet. */
const UNKNOWN_WIDTH = 100;

const loadImage = (address: string): Promise<HTMLImageElement> =>
  new Promise((resolve, reject) => {
    const image = new Image();
    image.onload = () => resolve(image);
    image.onerror = () => reject(new Error('no picture'));
    image.src = address;
  });

/** A picture as the project keeps it: no larger than it needs to be, in the file itself. Null where it is none. */
export const pictureText = async (file: Blob): Promise<string | null> => {
  const address = URL.createObjectURL(file);
  try {
    const image = await loadImage(address);
    const { naturalWidth: width, naturalHeight: height } = image;
    const scale = Math.min(1, MOST_POINTS / Math.max(width, height, 1));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(width * scale));
    canvas.height = Math.max(1, Math.round(height * scale));
    const pen = canvas.getContext('2d');
    if (pen === null || width === 0) return null;
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return canvas.toDataURL('image/jpeg', QUALITY);
  } catch {
    return null;
  } finally {
    URL.revokeObjectURL(address);
  }
};

/** Prints a picture on a paper; its width is that of the paper until another is typed. */
export const printPicture = async (index: number, file: File): Promise<void> => {
  const text = await pictureText(file);
  if (text === null) {
    bench.store.setState({
      notice: {
        title: `${file.name} is not a picture.`,
        issues: [
          {
            level: 'error',
            code: 'not-a-picture',
            path: '',
            message: 'This browser cannot read it as a picture.',
            remedy: 'Choose a PNG, JPEG or WebP file.',
          },
        ],
      },
    });
    return;
  }
  bench.edit((before) => {
    const at: FilePath = ['stock', index];
    const paper = (getAt(before, at) ?? {}) as JsonObject;
    const units = getAt(before, ['units']) === 'mm' ? 'mm' : 'in';
    const width = getAt(paper, ['picture', 'width']) ?? paper['width'] ?? exactText(UNKNOWN_WIDTH, units);
    const { print: _, ...rest } = paper;
    return setAt(before, at, { ...rest, picture: { file: text, width } }) as JsonObject;
  });
};

/** One of our own prints, or by its name: `undefined`. A picture goes away. */
export const printPattern = (index: number, pattern: string | undefined): void =>
  bench.edit((before) => {
    const at: FilePath = ['stock', index];
    const { print: _, picture: __, ...rest } = (getAt(before, at) ?? {}) as JsonObject;
    return setAt(before, at, pattern === undefined ? rest : { ...rest, print: { pattern } }) as JsonObject;
  });
