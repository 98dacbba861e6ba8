import { useEffect, useMemo } from 'react';

interface Disposable {
  dispose: () => void;
}

/** A thing of the graphics card made from its inputs, given back when they change or the stage goes. */
export const useDisposing = <T extends Disposable | readonly Disposable[]>(
  make: () => T,
  inputs: readonly unknown[],
): T => {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller lists what its thing is made from
  const made = useMemo(make, inputs);
  useEffect(
    () => () => {
      for (const thing of Array.isArray(made) ? made : [made]) thing.dispose();
    },
    [made],
  );
  return made;
};
