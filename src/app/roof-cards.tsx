import type { ReactElement } from 'react';
import type { MadeRoof } from '../core/make-roof.ts';
import { findKind, kinds } from '../core/roofs/catalogue.ts';
import { bench, readNow, useBench, useProduction } from './bench.ts';
import { TypedBox } from './fields/typed-field.tsx';
import { obstacles } from './obstacles.ts';
import { RoofPicture } from './roof-picture.tsx';
import { addRoof, duplicateRoof, nextRoof, removeRoof } from './state/file-edits.ts';
import { getAt } from './state/file-path.ts';
import { newRoof } from './state/new-roof.ts';

/** A further roof, of the kind of the one at hand and of the sizes of that kind's example; then its kind can be chosen. */
const begin = (index: number): void => {
  const { file, selected } = bench.store.getState();
  const shown = readNow().shown?.project;
  const definition = findKind(String(getAt(file, ['roofs', selected, 'kind']))) ?? kinds[0];
  if (definition === undefined) return;
  const sizes = { units: file['units'] === 'mm' ? 'mm' : 'in', scale: shown?.scale ?? 1 } as const;
  const files = newRoof(nextRoof(file), definition, sizes).map((roof) => addRoof(file, roof));
  const next = files.find((one) => obstacles(one, index) === null) ?? files[0];
  if (next === undefined) return;
  bench.edit(() => next);
  bench.select(index);
  bench.store.setState({ place: 'body' });
};

/** The project's roofs as cards lying at the left of the table; the one that is worked on lies on top, open. */
export const RoofCards = ({ isShut }: { readonly isShut: boolean }): ReactElement => {
  const roofs = useProduction()?.roofs ?? [];
  const selected = useBench((state) => state.selected);
  return (
    <section id="roof-cards" className={`cards ${isShut ? 'is-shut' : ''}`} aria-label="Roofs of the project">
      <div className="card-list">
        {roofs.map((roof, index) => (
          <Card
            key={roof.spec.id}
            roof={roof}
            index={index}
            isChosen={index === selected}
            isOnly={roofs.length === 1}
          />
        ))}
        <button type="button" className="key" onClick={() => begin(roofs.length)}>
          New roof
        </button>
      </div>
    </section>
  );
};

interface CardProps {
  readonly roof: MadeRoof;
  readonly index: number;
  readonly isChosen: boolean;
  readonly isOnly: boolean;
}

const Card = ({ roof, index, isChosen, isOnly }: CardProps): ReactElement => {
  const title = useBench((state) => getAt(state.file, ['roofs', index, 'title'])) ?? roof.spec.title;
  const isAmiss = roof.issues.some((issue) => issue.level === 'error');
  return (
    <article className={`card ${isChosen ? 'is-chosen' : ''}`}>
      <button type="button" className="card-face" aria-pressed={isChosen} onClick={() => bench.select(index)}>
        <RoofPicture roof={roof} />
        <span>
          <span className="name">{String(title)}</span>
          <span className="more">
            {findKind(roof.spec.kind)?.title ?? roof.spec.kind} ×{'\u00a0'}
            {roof.spec.copies}
            <span className="unseen">{roof.spec.copies === 1 ? ' copy' : ' copies'}</span>
          </span>
          {isAmiss && <span className="amiss">needs a look</span>}
        </span>
      </button>
      {isChosen && (
        <div className="card-edit">
          <label htmlFor="roof-title">
            Name
            <TypedBox
              id="roof-title"
              spec={{ key: 'title', label: 'Name', path: ['roofs', index, 'title'], quantity: 'text' }}
            />
          </label>
          <label htmlFor="roof-copies">
            Copies
            <TypedBox
              id="roof-copies"
              spec={{
                key: 'copies',
                label: 'Copies',
                path: ['roofs', index, 'copies'],
                quantity: 'count',
                fallback: 1,
              }}
            />
          </label>
          <div className="pair">
            <button
              type="button"
              className="key"
              onClick={() => {
                bench.edit((file) => duplicateRoof(file, index));
                bench.select(index + 1);
              }}
            >
              Duplicate
            </button>
            <button
              type="button"
              className="key"
              disabled={isOnly}
              onClick={() => bench.edit((file) => removeRoof(file, index))}
            >
              Remove
            </button>
          </div>
        </div>
      )}
    </article>
  );
};
