import type { ReactElement } from 'react';
import { bench } from '../bench.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { removeStock } from '../state/file-edits.ts';
import { type FilePath, getAt, type JsonObject } from '../state/file-path.ts';
import { soldAs, typicalThicknesses } from './typical-thickness.ts';

interface StockGroupProps {
  readonly paper: JsonObject;
  readonly index: number;
  /** No layer is cut from it, and it is not the only one. */
  readonly canGo: boolean;
}

/** One of the papers and boards that the maker owns. */
export const StockGroup = ({ paper, index, canGo }: StockGroupProps): ReactElement => (
  <section className="group">
    <h3>{String(paper['name'] ?? paper['id'])}</h3>
    <FieldPanel fields={stockFields(index)} />
    {canGo && (
      <button type="button" className="link" onClick={() => bench.edit((file) => removeStock(file, index))}>
        Put this paper away
      </button>
    )}
  </section>
);

const stockFields = (index: number): FieldSpec[] => {
  const at = (key: string): FilePath => ['stock', index, key];
  return [
    { key: 'name', label: 'Name', path: at('name'), quantity: 'text' },
    {
      key: 'width',
      label: 'Width',
      help: 'Left to right as the print stands upright.',
      path: at('width'),
      quantity: 'length',
    },
    {
      key: 'height',
      label: 'Height',
      help: 'Bottom to top as the print stands upright.',
      path: at('height'),
      quantity: 'length',
    },
    {
      key: 'count',
      label: 'Sheets owned',
      help: 'Empty: as many as needed.',
      path: at('count'),
      quantity: 'count',
      fallback: 'any number',
    },
    {
      key: 'soldAs',
      label: 'Sold as',
      help: 'Gives the usual thickness; what you measure yourself counts more.',
      path: at('soldAs'),
      quantity: 'choice',
      fallback: '',
      choices: [
        { value: '', label: 'Not listed' },
        ...typicalThicknesses.map(({ title, thickness }) => ({ value: thickness, label: title })),
      ],
      read: (file) => soldAs(getAt(file, at('thickness')))?.thickness ?? '',
      write: (value, gesture) => value === '' || bench.setField(at('thickness'), value, gesture),
    },
    { key: 'thickness', label: 'Thickness', path: at('thickness'), quantity: 'length', fallback: 'none' },
    {
      key: 'direction',
      label: 'Print',
      help: 'Whether the print has an up.',
      path: at('direction'),
      quantity: 'choice',
      fallback: 'one-way',
      choices: [
        { value: 'one-way', label: 'Has an up' },
        { value: 'two-way', label: 'Half a turn is fine' },
        { value: 'any', label: 'Any way' },
      ],
    },
  ];
};
