import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { defaultRuler, type Units } from '../core/units/units.ts';
import { bench, useStyle } from './bench.ts';
import { whenReadable } from './load-workshop.ts';
import { RulerPick } from './ruler-pick.tsx';
import { showIn } from './state/show-in.ts';
import { TitleField } from './title-field.tsx';

/** The bar over the table: whose work this is, file, undo, units. */
export const TopBar = (): ReactElement => (
  <header className="top">
    <div className="wordmark">
      <svg viewBox="0 0 24 26" aria-hidden="true">
        <path d="M12 1 2 21l10 4z" fill="#c9683f" />
        <path d="m12 1 10 20-10 4z" fill="#f4ecdc" />
      </svg>
      <span>Spirewright</span>
    </div>
    <TitleField />
    <button type="button" className="key" popoverTarget="project-menu">
      Project
    </button>
    <button
      type="button"
      className="key save-key"
      onClick={() => void import('./save.ts').then(({ saveProject }) => saveProject())}
    >
      Save
    </button>
    <UndoKeys />
    <div className="push" />
    <UnitsPick />
    <RulerPick />
  </header>
);

const UndoKeys = (): ReactElement => {
  const canUndo = useStore(bench.store.temporal, (state) => state.pastStates.length > 0);
  const canRedo = useStore(bench.store.temporal, (state) => state.futureStates.length > 0);
  return (
    <>
      <button
        type="button"
        className="key"
        disabled={!canUndo}
        onClick={bench.undo}
        title="Undo (Ctrl+Z)"
        aria-label="Undo"
      >
        <svg viewBox="0 0 18 18" aria-hidden="true" fill="none" stroke="currentColor" strokeWidth="1.8">
          <path d="M7 3 3 7l4 4M3.500 7H11a4 4 0 0 1 0 8H7" />
        </svg>
      </button>
      <button
        type="button"
        className="key"
        disabled={!canRedo}
        onClick={bench.redo}
        title="Redo (Ctrl+Shift+Z)"
        aria-label="Redo"
      >
        <svg viewBox="0 0 18 18" aria-hidden="true" fill="none" stroke="currentColor" strokeWidth="1.8">
          <path d="m11 3 4 4-4 4M14.500 7H7a4 4 0 0 0 0 8h4" />
        </svg>
      </button>
    </>
  );
};

const unitTitles: readonly { readonly units: Units; readonly title: string }[] = [
  { units: 'in', title: 'inches' },
  { units: 'mm', title: 'millimetres' },
];

const UnitsPick = (): ReactElement => {
  const { units } = useStyle();
  return (
    <fieldset className="either" style={{ margin: 0, padding: 0 }}>
      <legend className="unseen">Show lengths in</legend>
      {unitTitles.map((one) => (
        <label key={one.units} title={`Show lengths in ${one.title}`}>
          <input
            type="radio"
            name="units"
            aria-label={one.title}
            checked={units === one.units}
            onChange={() => whenReadable(() => bench.edit((file) => showIn(file, one.units, defaultRuler[one.units])))}
          />
          <span aria-hidden="true">{one.units}</span>
        </label>
      ))}
    </fieldset>
  );
};
