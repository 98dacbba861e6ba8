import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import type { Texture } from 'three';
import { makePrint } from './print-canvas.ts';
import type { Print } from './prints.ts';

/** Prints drawn so far, each once for the whole stage. */
export interface Papers {
  readonly texture: (print: Print) => Texture;
}

export const usePapers = (): Papers => {
  const invalidate = useThree((state) => state.invalidate);
  const store = useMemo(() => new Map<Print, Texture>(), []);
  useEffect(
    () => () => {
      for (const texture of store.values()) texture.dispose();
      store.clear();
    },
    [store],
  );
  return useMemo(
    () => ({
      texture: (print) => {
        const known = store.get(print);
        if (known !== undefined) return known;
        const made = makePrint(print);
        store.set(print, made);
        invalidate();
        return made;
      },
    }),
    [store, invalidate],
  );
};
