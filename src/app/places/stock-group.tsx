import { type ReactElement, useId } from 'react';
import { bench, useStyle } from '../bench.ts';
import { FieldPanel } from '../fields/field-panel.tsx';
import { choosePrint, isKept } from '../stage/prints.ts';
import { removeStock } from '../state/file-edits.ts';
import { getAt, type JsonObject } from '../state/file-path.ts';
import { OffcutFields } from './offcut-fields.tsx';
import { edgeFields, pictureField, printFields, sheetFields } from './stock-fields.ts';
import { printPicture } from './stock-picture.ts';

interface StockGroupProps {
  readonly paper: JsonObject;
  readonly index: number;
  /** No layer is cut from it, and it is not the only one. */
  readonly canGo: boolean;
}

/** One of the papers and boards that the maker owns. A picture dropped on it is printed on it. */
export const StockGroup = ({ paper, index, canGo }: StockGroupProps): ReactElement => {
  const style = useStyle();
  const name = String(paper['name'] ?? paper['id']);
  const isOffcut = paper['outline'] !== undefined;
  const guessed = choosePrint({ id: String(paper['id']), name });
  const picture = getAt(paper, ['picture', 'file']);
  const hasRepeat = paper['print'] !== undefined;
  return (
    <section className="group stock-group" aria-label={`Paper: ${name}`} data-stock={index}>
      <h3>{name}</h3>
      <FieldPanel fields={sheetFields(index, isOffcut)} />
      <OffcutFields paper={paper} index={index} />
      <FieldPanel fields={printFields(index, guessed, style).filter(({ key }) => key !== 'repeat' || hasRepeat)} />
      <PictureKey index={index} file={typeof picture === 'string' ? picture : null} name={name} />
      <details>
        <summary>Margin, gap and price</summary>
        <FieldPanel fields={edgeFields(index)} />
      </details>
      {canGo && (
        <button type="button" className="link" onClick={() => bench.edit((file) => removeStock(file, index))}>
          Put this paper away
        </button>
      )}
    </section>
  );
};

interface PictureKeyProps {
  readonly index: number;
  readonly file: string | null;
  readonly name: string;
}

/** The picture that is printed on a paper, and where to choose one. */
const PictureKey = ({ index, file, name }: PictureKeyProps): ReactElement => {
  const id = useId();
  return (
    <div className="paper-picture">
      {file !== null && (
        <>
          {isKept(file) ? (
            <img src={file} alt={`What is printed on ${name}`} />
          ) : (
            <p className="note">
              The picture lies beside the project as {file}. A page cannot read it there: choose it to see it here.
            </p>
          )}
          <FieldPanel fields={[pictureField(index)]} />
        </>
      )}
      <label className="key" htmlFor={id}>
        {file === null ? 'Picture of the paper…' : 'Another picture…'}
      </label>
      <input
        id={id}
        className="unseen"
        type="file"
        accept="image/png,image/jpeg,image/webp"
        onChange={(event) => {
          const chosen = event.target.files?.[0];
          event.target.value = '';
          if (chosen !== undefined) void printPicture(index, chosen);
        }}
      />
    </div>
  );
};
