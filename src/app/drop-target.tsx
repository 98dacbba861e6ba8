import { type DragEvent, type ReactElement, type ReactNode, useState } from 'react';
import { openText } from './bench.ts';

const hasFile = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');

export const openFile = async (file: File): Promise<void> => {
  await openText(await file.text(), file.name);
};

/** A project file dropped anywhere on the page is opened. */
export const DropTarget = ({ children }: { readonly children: ReactNode }): ReactElement => {
  const [isOver, setIsOver] = useState(false);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is a second way; the first is the Open button.
    <div
      onDragOver={(event) => {
        if (!hasFile(event)) return;
        event.preventDefault();
        setIsOver(true);
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) setIsOver(false);
      }}
      onDrop={(event) => {
        setIsOver(false);
        const file = event.dataTransfer.files[0];
        if (file === undefined) return;
        event.preventDefault();
        void openFile(file);
      }}
    >
      {children}
      {isOver && <div className="drop-here">Lay the project on the table</div>}
    </div>
  );
};
