import { type ReactElement, useEffect, useState } from 'react';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { PrintPattern } from '../../core/project/prints.ts';
import type { Stock } from '../../core/project/project.ts';
import { drawPrint } from '../stage/print-canvas.ts';
import { type Look, lookOf } from '../stage/prints.ts';
import type { TableView } from './laying-store.ts';

/** What fills the sheet of this number. */
export const paperFill = (sheet: number): string => `url(#paper-${sheet})`;

const drawn = new Map<PrintPattern, string>();

/** A print as an address of its picture; drawn once. */
const pictureOf = (look: Look): string => {
  if (look.pattern === undefined) return look.file;
  const known = drawn.get(look.pattern) ?? drawPrint(look.pattern).toDataURL('image/jpeg', 0.8);
  drawn.set(look.pattern, known);
  return known;
};

/** Height of a picture over its width, once it is known. */
const useAspect = (file: string): number => {
  const [known, setKnown] = useState<{ readonly file: string; readonly aspect: number } | null>(null);
  useEffect(() => {
    const image = new Image();
    image.onload = () => setKnown({ file, aspect: image.naturalHeight / Math.max(1, image.naturalWidth) });
    image.src = file;
  }, [file]);
  return known?.file === file ? known.aspect : 1;
};

interface PaperFillProps {
  readonly id: string;
  readonly look: Look;
  /** Lower left corner of the sheet on the page. */
  readonly corner: readonly [number, number];
  readonly scale: number;
}

const PaperFill = ({ id, look, corner, scale }: PaperFillProps): ReactElement => {
  const picture = pictureOf(look);
  const width = look.tile * scale;
  const height = width * useAspect(picture);
  return (
    <pattern id={id} patternUnits="userSpaceOnUse" x={corner[0]} y={corner[1] - height} width={width} height={height}>
      <image href={picture} width={width} height={height} preserveAspectRatio="none" />
    </pattern>
  );
};

interface PaperFillsProps {
  readonly sheets: readonly LaidSheet[];
  readonly stock: readonly Stock[];
  readonly view: TableView;
}

/** The papers as fills, each repeating from the lower left of its sheet. */
export const PaperFills = ({ sheets, stock, view }: PaperFillsProps): ReactElement => (
  <defs>
    {sheets.map((sheet, i) => {
      const [x, y] = view.corners[i] ?? [0, 0];
      return (
        <PaperFill
          key={`${sheet.stock} ${sheet.index}`}
          id={`paper-${i}`}
          look={lookOf(stock[sheet.stock])}
          corner={[view.left + x * view.scale, view.top - y * view.scale]}
          scale={view.scale}
        />
      );
    })}
  </defs>
);
