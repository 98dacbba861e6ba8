import type { ReactElement } from 'react';
import { paperSizes } from '../../core/project/paper-sizes.ts';
import { formatLength } from '../../core/units/units.ts';
import { useProduction, useReading, useStyle } from '../bench.ts';
import { showArea } from '../draw/show-number.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import { choiceField, type FieldSpec } from '../fields/field-spec.ts';
import { GuideGroup } from '../guide/guide-group.tsx';
import { Exports } from './exports.tsx';
import { FitGroup } from './fit-group.tsx';
import { WorthKnowing } from './worth-knowing.tsx';

/** Last: take it off the bench. */
export const BuildPlace = (): ReactElement | null => {
  const production = useProduction();
  const { isCurrent } = useReading();
  if (production === null) return null;
  const { page } = production.project;
  return (
    <>
      <section className="group">
        <h3>Printed pages</h3>
        <FieldPanel fields={pageFields(page.name)} />
        {page.arrange === 'as-laid' && (
          <p className="note">
            Sheets are printed at true size. One of the page’s own size fills it: put that paper into the printer. A
            larger one is parted into tiles to be joined.
          </p>
        )}
        {page.marks === 'both' && (
          <p className="note">
            Each page of the PDF is followed by a mirrored one for its back. Print it there, turned over from left to
            right, or trace it. On the printed side letters then stand on flaps alone.
          </p>
        )}
        <Exports production={production} isCurrent={isCurrent} />
      </section>
      <FitGroup />
      <section className="group">
        <h3>What it takes</h3>
        <Materials />
      </section>
      <GuideGroup />
      <WorthKnowing />
    </>
  );
};

const pageFields = (used: string): FieldSpec[] => [
  {
    key: 'size',
    label: 'Page',
    path: ['page', 'size'],
    quantity: 'choice',
    fallback: used,
    choices: paperSizes.map((size) => ({ value: size.name, label: size.name })),
  },
  choiceField(['page', 'orientation'], 'Held', [
    { value: 'portrait', label: 'Upright' },
    { value: 'landscape', label: 'Across' },
  ]),
  choiceField(
    ['page', 'arrange'],
    'Pieces',
    [
      { value: 'close', label: 'Close together' },
      { value: 'as-laid', label: 'As laid on paper' },
    ],
    'Pages packed with pieces, or the sheets as they lie in Paper.',
  ),
  choiceField(
    ['page', 'marks'],
    'Letters',
    [
      { value: 'printed-side', label: 'On the printed side' },
      { value: 'both', label: 'On the back' },
    ],
    'Letters and names of seams and panels.',
  ),
];

const Materials = (): ReactElement | null => {
  const production = useProduction();
  const style = useStyle();
  if (production === null) return null;
  const { byStock, tape, cut, score } = production.materials;
  const length = (mm: number): string =>
    style.units === 'mm' && mm >= 1000 ? `${(mm / 1000).toFixed(2)} m` : formatLength(mm, style);
  return (
    <dl className="numbers">
      {byStock.map(({ stock, sheets, area }) => (
        <div key={stock}>
          <dt>{production.project.stock[stock]?.name}</dt>
          <dd className="first">{sheets === 1 ? '1 sheet' : `${sheets} sheets`}</dd>
          <dd className="second">{showArea(area, style.units)}</dd>
        </div>
      ))}
      {[
        ['Cutting', cut],
        ['Scoring', score],
        ['Tape', tape],
      ].map(([name, mm]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className="first is-wide">{Number(mm) === 0 ? 'none' : length(Number(mm))}</dd>
        </div>
      ))}
    </dl>
  );
};
