import type { ReactElement } from 'react';
import type { MadeRoof } from '../core/pipeline.ts';
import { findKind } from '../core/roofs/catalogue.ts';
import { bench, useBench, useProduction } from './bench.ts';
import { TypedBox } from './fields/typed-field.tsx';
import { RoofPicture } from './roof-picture.tsx';
import { addRoof, duplicateRoof, removeRoof } from './state/file-edits.ts';
import { getAt } from './state/file-path.ts';

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
        <button
          type="button"
          className="key"
          onClick={() => {
            bench.edit(addRoof);
            bench.select(roofs.length);
          }}
        >
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
            {findKind(roof.spec.kind)?.title ?? roof.spec.kind} × {roof.spec.copies}
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
