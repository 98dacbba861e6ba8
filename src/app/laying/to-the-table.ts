import { dropDrag } from './laid-piece.tsx';

/**
 * Hands on the pieces that mean the table under them: a second finger, with which the first one lets go of its piece and both slide
 * the table or bring it nearer, and the wheel. Nothing where the sheets are drawn flat. Returns how to stop.
 */
export const passToTable = (area: Element): (() => void) => {
  const table = (): HTMLCanvasElement | null => area.querySelector('canvas');
  const down = new Map<number, PointerEvent>();
  const onDown = (event: PointerEvent): void => {
    if (event.pointerType !== 'touch' || !event.isTrusted) return;
    down.set(event.pointerId, event);
    const canvas = table();
    if (down.size < 2 || canvas === null) return;
    dropDrag();
    const onPieces = [...down.values()].filter(({ target }) => target !== canvas);
    if (onPieces.includes(event)) event.stopPropagation();
    for (const finger of onPieces) canvas.dispatchEvent(new PointerEvent('pointerdown', finger));
  };
  const onMove = (event: PointerEvent): void => {
    if (down.has(event.pointerId)) down.set(event.pointerId, event);
  };
  const onUp = ({ pointerId }: PointerEvent): void => {
    down.delete(pointerId);
  };
  const onWheel = (event: WheelEvent): void => {
    const canvas = table();
    if (canvas === null || !event.isTrusted || event.target === canvas) return;
    event.preventDefault();
    canvas.dispatchEvent(new WheelEvent('wheel', event));
  };
  const stop = new AbortController();
  const { signal } = stop;
  // Heard before the pieces hear it, and to the end wherever a finger is lifted.
  area.addEventListener('pointerdown', onDown as EventListener, { capture: true, signal });
  window.addEventListener('pointermove', onMove, { capture: true, signal });
  window.addEventListener('pointerup', onUp, { capture: true, signal });
  window.addEventListener('pointercancel', onUp, { capture: true, signal });
  area.addEventListener('wheel', onWheel as EventListener, { passive: false, signal });
  return () => stop.abort();
};
