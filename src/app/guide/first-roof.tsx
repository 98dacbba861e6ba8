import { type ReactElement, useEffect, useMemo, useRef } from 'react';
import { createPortal } from 'react-dom';
import { firstRoof } from '../../core/guide/first-roof.ts';
import { useStyle } from '../bench.ts';
import { LineFigure } from './line-figure.tsx';
import '../styles/guide.css';

/** The lesson: from a square on paper to a closed pyramid. It lies over everything until it is closed. */
export const FirstRoof = ({ onClose }: { readonly onClose: () => void }): ReactElement => {
  const { units } = useStyle();
  const steps = useMemo(() => firstRoof(units), [units]);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return createPortal(
    <dialog ref={dialog} className="lesson" aria-labelledby="lesson-title" onClose={onClose}>
      <header>
        <h2 id="lesson-title">A first roof</h2>
        <button type="button" className="key" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </header>
      <p>
        From a square on paper to a closed pyramid. You need stiff paper, a pencil, a ruler, scissors and a glue stick.
      </p>
      <ol>
        {steps.map(({ title, sentences, picture, alt }) => (
          <li key={title}>
            <h3>{title}</h3>
            <LineFigure picture={picture} alt={alt} />
            {sentences.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </li>
        ))}
      </ol>
    </dialog>,
    document.body,
  );
};
