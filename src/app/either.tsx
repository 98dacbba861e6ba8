import { type ReactElement, useId } from 'react';

export interface EitherChoice {
  readonly value: string;
  readonly title: string;
  /** What a reader hears, where it has to say more than the title. */
  readonly spoken?: string;
  readonly disabled?: boolean;
  /** It cannot be now; chosen all the same, it may say why. */
  readonly isBarred?: boolean;
}

interface EitherProps {
  readonly legend: string;
  readonly choices: readonly EitherChoice[];
  readonly value: string;
  readonly onChoose: (value: string) => void;
  /** The legend is heard but not seen. */
  readonly isLegendUnseen?: boolean;
}

/** More than these stand in two rows. */
const MANY = 4;

/** One of a few, side by side. */
export const Either = ({ legend, choices, value, onChoose, isLegendUnseen = false }: EitherProps): ReactElement => {
  const name = useId();
  return (
    <fieldset className="given">
      <legend className={isLegendUnseen ? 'unseen' : 'given-title'}>{legend}</legend>
      <div className={`either on-paper wide ${choices.length > MANY ? 'many' : ''}`}>
        {choices.map((choice) => (
          <label key={choice.value}>
            <input
              type="radio"
              name={name}
              aria-label={`${choice.spoken ?? choice.title}${choice.isBarred === true ? ', cannot be' : ''}`}
              checked={choice.value === value}
              disabled={choice.disabled ?? false}
              onChange={() => onChoose(choice.value)}
            />
            <span aria-hidden="true" className={choice.isBarred === true ? 'is-barred' : ''}>
              {choice.title}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
};
