import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { CanvasTexture, RepeatWrapping, SRGBColorSpace, Texture } from 'three';
import { drawPrint } from './print-canvas.ts';
import type { Look } from './prints.ts';

/** Papers drawn so far, each once for the whole stage. Texture place 1, both ways, is one tile of the look. */
export interface Papers {
  readonly texture: (look: Look) => Texture;
}

/** Looks that are kept when others come: every paper of a project, and some more. */
const MOST = 24;

const laid = <T extends Texture>(texture: T): T => {
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
};

/** A picture as its own height asks, once it is there; until then the paper is blank. */
const pictureTexture = (file: string, onLoad: () => void): Texture => {
  const texture = laid(new Texture());
  const image = new Image();
  image.onload = () => {
    texture.image = image;
    texture.repeat.set(1, image.naturalWidth / Math.max(1, image.naturalHeight));
    texture.needsUpdate = true;
    onLoad();
  };
  image.src = file;
  return texture;
};

export const usePapers = (): Papers => {
  const invalidate = useThree((state) => state.invalidate);
  const store = useMemo(() => new Map<string, Texture>(), []);
  useEffect(
    () => () => {
      for (const texture of store.values()) texture.dispose();
      store.clear();
    },
    [store],
  );
  return useMemo(
    () => ({
      texture: (look) => {
        // The same print at another size is the same picture.
        const key = look.pattern ?? look.key;
        const known = store.get(key);
        if (known !== undefined) return known;
        const made =
          look.pattern === undefined
            ? pictureTexture(look.file, invalidate)
            : laid(new CanvasTexture(drawPrint(look.pattern)));
        store.set(key, made);
        const [oldest] = store.keys();
        if (store.size > MOST && oldest !== undefined) store.delete(oldest);
        invalidate();
        return made;
      },
    }),
    [store, invalidate],
  );
};
