import { type ReactElement, useRef } from 'react';
import { bench, openText, useStyle } from './bench.ts';
import { FirstRoofKey } from './guide/first-roof-key.tsx';
import { openFile } from './open-file.ts';
import { RulerPick } from './ruler-pick.tsx';
import { samples } from './samples.ts';
import { saveProject } from './save.ts';
import { blankProject } from './state/blank-project.ts';

/** New, open, save and the samples: what is in the menu that the bar's Project key opens. */
export const ProjectMenu = (): ReactElement => {
  const picker = useRef<HTMLInputElement>(null);
  const { units } = useStyle();
  const entry = (title: string, about: string, act: () => void): ReactElement => (
    <button
      type="button"
      className="entry"
      onClick={(event) => {
        event.currentTarget.closest<HTMLElement>('[popover]')?.hidePopover();
        act();
      }}
    >
      {title}
      <small>{about}</small>
    </button>
  );

  return (
    <>
      {entry('New', 'One roof on an empty table', () => bench.replace(blankProject(units)))}
      {entry('Open…', 'A .roofs.json file; or drop it anywhere', () => picker.current?.click())}
      {entry('Save', 'Downloads the project as you typed it', saveProject)}
      <FirstRoofKey className="entry" />
      {samples.length > 0 && <h2>Samples</h2>}
      {samples.map((sample) => (
        <div key={sample.title}>
          {entry(sample.title, `In ${sample.units}`, () => void openText(sample.text, sample.title))}
        </div>
      ))}
      <div className="only-narrow">
        <RulerPick className="entry" />
      </div>
      <input
        ref={picker}
        type="file"
        accept=".json,application/json"
        hidden
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) void openFile(file);
        }}
      />
    </>
  );
};
