import { type KeyboardEvent, type ReactElement, useEffect, useMemo, useRef, useState } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import type { Production } from '../../core/pipeline.ts';
import { makeSetOut } from '../../core/setout/make-set-out.ts';
import type { SetOut, SetOutStrip, UpSide } from '../../core/setout/set-out.ts';
import { exact } from '../../core/setout/words.ts';
import { rulerUnits } from '../../core/units/units.ts';
import { measuredFromRight } from '../../io/drawing/set-out/draw-strip.ts';
import { useBench, useProduction, useStyle } from '../bench.ts';
import { Either } from '../either.tsx';
import { useSize } from '../use-size.ts';
import { SetOutDrawing, type ShownStrip, useShownStrip } from './set-out-drawing.tsx';

/** Everything that can be set out of a sheet: the templates that its strips ask for, its strips, then what may be traced besides. */
const partsOf = ({ strips, templates }: SetOut): readonly SetOutStrip[] => [
  ...templates.flatMap(({ strip, hold }) => (hold ? [strip] : [])),
  ...strips,
  ...templates.flatMap(({ strip, hold }) => (hold ? [] : [strip])),
];

export const SetOutSteps = (): ReactElement => {
  const production = useProduction();
  const selected = useBench((state) => state.selected);
  const { ruler } = useStyle();
  const [chosen, choose] = useState<{ readonly roof: number; readonly sheet: number } | null>(null);
  const [sided, setSided] = useState<UpSide | null>(null);
  const first = Math.max(0, production?.sheets.findIndex((one) => holds(one, selected)) ?? 0);
  const index = chosen?.roof === selected ? chosen.sheet : first;
  const sheet = production?.sheets[index];
  const setOut = useMemo(
    () => (production && sheet ? makeSetOut(production, sheet, { ruler, ...(sided ? { up: sided } : {}) }) : null),
    [production, sheet, ruler, sided],
  );
  if (production === null || setOut === null) {
    return <p className="waiting">There is no sheet with pieces on it yet.</p>;
  }
  return (
    <>
      <header className="sheet-head">
        <h2>Set out by ruler</h2>
        <label className="sheet-pick">
          <span className="unseen">Sheet</span>
          <select value={index} onChange={(event) => choose({ roof: selected, sheet: Number(event.target.value) })}>
            {production.sheets.map((one, i) => (
              <option key={`${one.stock}/${one.index}`} value={i}>
                {sheetName(production, i)}
              </option>
            ))}
          </select>
        </label>
        <Either
          legend="Side that is up"
          isLegendUnseen
          choices={[
            { value: 'wrong', title: isBoardSheet(production, index) ? 'Inside up' : 'Wrong side up' },
            { value: 'right', title: isBoardSheet(production, index) ? 'Outside up' : 'Printed side up' },
          ]}
          value={setOut.up}
          onChoose={(value) => setSided(value as UpSide)}
        />
        <p>{setOut.upSentence}</p>
      </header>
      <Strips key={`${index}/${setOut.up}/${ruler}`} setOut={setOut} />
    </>
  );
};

const holds = ({ placements }: Production['sheets'][number], roof: number): boolean =>
  placements.some((placement) => placement.roof === roof);

const sheetName = ({ project, sheets }: Production, i: number): string => {
  const sheet = sheets[i];
  const name = sheet ? (project.stock[sheet.stock]?.name ?? '') : '';
  return `${name}, sheet ${(sheet?.index ?? 0) + 1}`;
};

const isBoardSheet = ({ sheets, roofs }: Production, i: number): boolean =>
  (sheets[i]?.placements ?? []).every(({ roof, layer }) => {
    const made = roofs[roof];
    return made !== undefined && cutLayers(made)[layer]?.spec.as === 'board';
  });

/** The picture takes this share of the height, and has so many pixels round it, as the style has it. */
const PICTURE = 0.66;
const AROUND = 30;

/** The trimmer's list, then one strip at a time with its steps. */
const Strips = ({ setOut }: { readonly setOut: SetOut }): ReactElement => {
  const parts = partsOf(setOut);
  const [shown, show] = useState(0);
  const [step, setStep] = useState<number | null>(null);
  const at = Math.min(shown, parts.length - 1);
  const strip = parts[at];
  const picture = useRef<HTMLElement>(null);
  const { ref, width, height } = useSize<HTMLDivElement>();
  const drawn = useShownStrip(strip, step, rulerUnits(setOut.ruler), {
    width: Math.max(0, width - AROUND),
    height: PICTURE * height - AROUND,
  });
  const isDrawn = drawn !== null;
  useEffect(() => {
    if (picture.current && strip && isDrawn) showStep(picture.current, strip, step);
  }, [strip, step, isDrawn]);
  if (strip === undefined) return <p className="waiting">There is no sheet with pieces on it yet.</p>;
  const go = (to: number): void => setStep(Math.min(strip.steps.length - 1, Math.max(0, to)));
  const onKey = (event: KeyboardEvent): void => {
    const way = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (way === undefined || event.target instanceof HTMLSelectElement) return;
    event.preventDefault();
    go(step === null ? (way > 0 ? 0 : strip.steps.length - 1) : step + way);
  };
  return (
    <div className="set-out-body" ref={ref}>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling drawing has to be reached by keyboard. */}
      <section className="set-out-picture" tabIndex={0} aria-label="The drawing" ref={picture}>
        {drawn && <SetOutDrawing strip={strip} shown={drawn} step={step} />}
      </section>
      <div className="set-out-words">
        {setOut.trims.length > 0 && (
          <section>
            <h3>First, on the trimmer</h3>
            <ol className="trims">
              {setOut.trims.map(({ text }) => (
                <li key={text}>{text}</li>
              ))}
            </ol>
          </section>
        )}
        {setOut.issues.map(({ code, message, remedy }) => (
          <p className="set-out-issue" key={`${code}${message}`}>
            {message} {remedy}
          </p>
        ))}
        <section>
          <div className="set-out-strip">
            {parts.length > 1 ? (
              <label>
                <span className="unseen">Strip</span>
                <select
                  value={at}
                  onChange={(event) => {
                    show(Number(event.target.value));
                    setStep(null);
                  }}
                >
                  {parts.map(({ title }, i) => (
                    <option key={title} value={i}>
                      {title}
                    </option>
                  ))}
                </select>
              </label>
            ) : (
              <h3>{strip.title}</h3>
            )}
            <span className="keys">
              <button type="button" className="key" disabled={step === 0} onClick={() => go((step ?? 1) - 1)}>
                Back
              </button>
              <button
                type="button"
                className="key"
                disabled={step === strip.steps.length - 1}
                onClick={() => go(step === null ? 0 : step + 1)}
              >
                Next
              </button>
              <button type="button" className="key" aria-pressed={step === null} onClick={() => setStep(null)}>
                All
              </button>
            </span>
          </div>
          {drawn && <Told strip={strip} setOut={setOut} shown={drawn} />}
          <p className="unseen" aria-live="polite">
            {step === null ? '' : `Step ${step + 1} of ${strip.steps.length}. ${strip.steps[step]?.text ?? ''}`}
          </p>
          <ol className="set-out-steps" onKeyDown={onKey}>
            {strip.steps.map(({ text }, i) => (
              <li key={text} value={i + 1}>
                <button
                  type="button"
                  aria-current={i === step ? 'step' : undefined}
                  onClick={() => setStep(i === step ? null : i)}
                >
                  {text}
                </button>
              </li>
            ))}
          </ol>
        </section>
        {setOut.seamSentences.length > 0 && (
          <section>
            <h3>Seams, once rounded</h3>
            <ul className="set-out-told">
              {setOut.seamSentences.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </section>
        )}
      </div>
    </div>
  );
};

/** Brings what a step draws into view where the drawing is wider than its room; of all of it, the end that is measured from, or the middle of a piece. */
const showStep = (picture: HTMLElement, strip: SetOutStrip, step: number | null): void => {
  const now = step === null ? null : picture.querySelector('.is-now');
  if (now === null) {
    const all = picture.scrollWidth - picture.clientWidth;
    picture.scrollLeft = picture.querySelector('.is-part') ? all / 2 : measuredFromRight(strip) ? all : 0;
    return;
  }
  const [seen, drawn] = [picture.getBoundingClientRect(), now.getBoundingClientRect()];
  if (drawn.width === 0 && drawn.height === 0) return;
  picture.scrollLeft += drawn.left + drawn.width / 2 - (seen.left + seen.width / 2);
  picture.scrollTop += drawn.top + drawn.height / 2 - (seen.top + seen.height / 2);
};

/** What is worth knowing of a strip: how often it is made, how far off the marks are, figures of sectors. */
const Told = ({
  strip,
  setOut,
  shown: { leftOut, isCrowded },
}: {
  readonly strip: SetOutStrip;
  readonly setOut: SetOut;
  readonly shown: ShownStrip;
}): ReactElement => {
  const template = setOut.templates.find((one) => one.strip === strip);
  const off = Math.max(0, ...strip.pieces.map((piece) => piece.off));
  const offText = exact(off, setOut.ruler);
  return (
    <ul className="set-out-told">
      {strip.times > 1 && <li>Make {strip.times} strips like this.</li>}
      {template?.hold && (
        <li>
          Make it once from thin card. The steps of the sheet lay it by its marks {template.hold.marks.join(' and ')}{' '}
          and trace it {template.times} times.
        </li>
      )}
      {template?.hold === null && (
        <li>
          Make it once from scrap card, trace it {template.times} times, then add each flap beside its line: about{' '}
          {template.measures[0]} measures in place of {template.measures[1]}.
        </li>
      )}
      {isCrowded && <li>Many marks: choose a step to see its piece enlarged, with the numbers of its marks.</li>}
      {[...strip.notes, ...leftOut].map((note) => (
        <li key={note}>{note}</li>
      ))}
      <li>
        {Number.parseFloat(offText) === 0
          ? 'Every mark is exact.'
          : `No edge of a panel is drawn more than ${offText} off.`}
      </li>
    </ul>
  );
};
