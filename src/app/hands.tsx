import { type ReactElement, useEffect, useState } from 'react';
import { bench } from './bench.ts';
import { useLayoutSearch } from './laying/search.ts';
import { openFile } from './open-file.ts';
import { printPicture } from './places/stock-picture.ts';
import { saveProject } from './save.ts';

/** What hands do to the page as a whole: keys, a file dropped anywhere, leaving with unsaved work. */
export const Hands = (): ReactElement | null => {
  useShortcuts();
  useUnsavedWarning();
  useLayoutSearch();
  return useDrop() ? <div className="drop-here">Lay the project on the table, or a picture on its paper</div> : null;
};

const useListener = <K extends keyof WindowEventMap>(type: K, listener: (event: WindowEventMap[K]) => void): void => {
  useEffect(() => {
    window.addEventListener(type, listener);
    return () => window.removeEventListener(type, listener);
  }, [type, listener]);
};

/** Ctrl or Cmd with Z, Shift+Z, Y and S. Inside a text box the box keeps its own undo. */
const onKey = (event: KeyboardEvent): void => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const isTyping = event.target instanceof HTMLInputElement && event.target.type === 'text';
  const key = event.key.toLowerCase();
  if (key === 's') saveProject();
  else if (key === 'z' && !isTyping) bench[event.shiftKey ? 'redo' : 'undo']();
  else if (key === 'y' && !isTyping) bench.redo();
  else return;
  event.preventDefault();
};

const useShortcuts = (): void => useListener('keydown', onKey);

/** The browser asks in its own words whether to leave; it does so once anything on the page was touched. */
const onLeave = (event: BeforeUnloadEvent): void => {
  const { file, kept } = bench.store.getState();
  if (file !== kept) event.preventDefault();
};

const useUnsavedWarning = (): void => useListener('beforeunload', onLeave);

const hasFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;

const onDrop = (event: DragEvent): void => {
  const file = event.dataTransfer?.files[0];
  if (file === undefined) return;
  event.preventDefault();
  // A picture is printed on the paper that it is dropped on, in the panel or else the first.
  const group = (event.target as Element | null)?.closest('[data-stock]');
  if (file.type.startsWith('image/')) void printPicture(Number(group?.getAttribute('data-stock') ?? 0), file);
  else void openFile(file);
};

/** A project file dropped anywhere on the page is opened; true while one is held over it. */
const useDrop = (): boolean => {
  const [isOver, setIsOver] = useState(false);
  useEffect(() => {
    const over = (event: DragEvent): void => {
      if (!hasFile(event)) return;
      event.preventDefault();
      setIsOver(true);
    };
    const away = (event: DragEvent): void => {
      if (event.relatedTarget === null) setIsOver(false);
    };
    const drop = (event: DragEvent): void => {
      setIsOver(false);
      onDrop(event);
    };
    window.addEventListener('dragover', over);
    window.addEventListener('dragleave', away);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragleave', away);
      window.removeEventListener('drop', drop);
    };
  }, []);
  return isOver;
};
