import type { ReactElement } from 'react';
import { bench, useStyle } from '../bench.ts';
import { exactText } from '../fields/typed-text.ts';
import { laying } from '../laying/laying-store.ts';
import { type FilePath, type JsonObject, setAt } from '../state/file-path.ts';
import { CornersBox } from './corners-box.tsx';

interface OffcutFieldsProps {
  readonly paper: JsonObject;
  readonly index: number;
}

/** Size of an offcut to begin with, mm: a sheet with a corner gone. */
const FIRST = [160, 110, 60, 40] as const;

/** An offcut by its corners, typed one after the other going round. */
export const OffcutFields = ({ paper, index }: OffcutFieldsProps): ReactElement => {
  const { units } = useStyle();
  const at: FilePath = ['stock', index, 'outline'];
  if (paper['outline'] === undefined) {
    return (
      <button type="button" className="link" onClick={() => bench.edit((file) => makeOffcut(file, index, units))}>
        It is an offcut
      </button>
    );
  }
  return (
    <div className="typed offcut">
      <CornersBox at={at} corners={paper['outline']} label="Corners, going round: across, up; …" />
      <div className="layer-keys">
        <button
          type="button"
          className="link"
          onClick={() => {
            laying.setState({ offcut: index });
            bench.store.setState({ paperView: 'sheets' });
          }}
        >
          Draw it on the table
        </button>
        <button type="button" className="link" onClick={() => bench.edit((file) => makeSheet(file, index))}>
          It is a whole sheet
        </button>
      </div>
    </div>
  );
};

/** A sheet with its upper right corner gone, to be typed over. */
const makeOffcut = (file: JsonObject, index: number, units: 'in' | 'mm'): JsonObject => {
  const [width, height, right, up] = FIRST.map((mm) =>
    exactText(units === 'in' ? (mm / 20) * 25.4 * 0.75 : mm, units),
  ) as [string, string, string, string];
  const outline = [
    [0, 0],
    [width, 0],
    [width, up],
    [right, height],
    [0, height],
  ];
  const paper = setAt(setAt(file, ['stock', index, 'outline'], outline), ['stock', index, 'width'], undefined);
  return setAt(paper, ['stock', index, 'height'], undefined) as JsonObject;
};

/** A rectangle as large as the offcut's box was, or A4 where nothing better is known. */
const makeSheet = (file: JsonObject, index: number): JsonObject => {
  const sized = setAt(setAt(file, ['stock', index, 'width'], '210mm'), ['stock', index, 'height'], '297mm');
  return setAt(sized, ['stock', index, 'outline'], undefined) as JsonObject;
};
