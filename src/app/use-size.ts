import { type RefObject, useEffect, useRef, useState } from 'react';

/** Width and height of an element's inside, in page pixels; zero until it is laid out. */
export const useSize = <T extends HTMLElement>(): {
  readonly ref: RefObject<T | null>;
  readonly width: number;
  readonly height: number;
} => {
  const ref = useRef<T>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, ...size };
};
