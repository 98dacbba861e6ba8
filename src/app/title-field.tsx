import { type ReactElement, useState } from 'react';
import { bench, useBench } from './bench.ts';
import { whenReadable } from './load-workshop.ts';

/** The project's title, written straight onto the bar. An empty one is not taken. */
export const TitleField = (): ReactElement => {
  const title = String(useBench((state) => state.file['title'] ?? ''));
  const [typing, setTyping] = useState<string | null>(null);
  const settle = (): void => {
    const text = typing?.trim() ?? '';
    setTyping(null);
    if (text !== '' && text !== title) whenReadable(() => bench.setField(['title'], text));
  };
  return (
    <input
      className="title-field"
      type="text"
      aria-label="Project title"
      autoComplete="off"
      spellCheck={false}
      value={typing ?? title}
      onChange={(event) => setTyping(event.target.value)}
      onBlur={settle}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
        else if (event.key === 'Escape') setTyping(null);
      }}
    />
  );
};
