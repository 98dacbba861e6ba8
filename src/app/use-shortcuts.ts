import { useEffect } from 'react';
import { bench } from './bench.ts';
import { saveProject } from './save.ts';

/** Ctrl or Cmd with Z, Shift+Z, Y and S. Inside a text box the box keeps its own undo. */
export const useShortcuts = (): void => {
  useEffect(() => {
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
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
};
