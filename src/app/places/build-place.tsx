import type { ReactElement } from 'react';
import { paperSizes } from '../../core/project/paper-sizes.ts';
import { formatLength } from '../../core/units/units.ts';
import { useProduction, useReading, useStyle } from '../bench.ts';
import { showArea } from '../draw/show-number.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import type { FieldSpec } from '../fields/field-spec.ts';
import { Exports } from './exports.tsx';
import { FitGroup } from './fit-group.tsx';
import { WorthKnowing } from './worth-knowing.tsx';

/** Last: take it off the bench. */
export const BuildPlace = (): ReactElement | null => {
  const production = useProduction();
  const { isCurrent } = useReading();
  if (production === null) return null;
  return (
    <>
      <section className="group">
        <h3>Printed pages</h3>
        <FieldPanel fields={pageFields(production.project.page.name)} />
        <Exports production={production} isCurrent={isCurrent} />
      </section>
      <FitGroup />
      <section className="group">
        <h3>What it takes</h3>
        <Materials />
      </section>
      <section className="group">
        <h3>The order of work</h3>
        <ol className="steps">
          <li>
            <b>Print</b> at 100 %, and check the bars on the page with your ruler.
          </li>
          <li>
            <b>Score</b> every fold along a steel rule, before any cutting.
          </li>
          <li>
            <b>Cut</b> along the continuous lines, the inside corners first.
          </li>
          <li>
            <b>Fold</b> each score once fully, then let it spring back.
          </li>
          <li>
            <b>Glue</b> one seam at a time, letter to letter, from the eave up.
          </li>
          <li>
            <b>Set</b> it on its body before the glue is hard.
          </li>
        </ol>
        <div className="caution">
          <p>
            <b>Blades:</b> cut away from your other hand, along steel, in several light passes. A blunt blade slips:
            change it.
          </p>
          <p>
            <b>Glue:</b> air the room for spray and solvent glue. Children work with a glue stick, and with a grown-up
            at the knife.
          </p>
        </div>
      </section>
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
  {
    key: 'orientation',
    label: 'Held',
    path: ['page', 'orientation'],
    quantity: 'choice',
    fallback: 'portrait',
    choices: [
      { value: 'portrait', label: 'Upright' },
      { value: 'landscape', label: 'Across' },
    ],
  },
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
