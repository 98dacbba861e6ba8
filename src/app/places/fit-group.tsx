import { type ReactElement, useEffect, useState } from 'react';
import { showGap } from '../../core/fit/fit.ts';
import { HAND_MM, type HandCut } from '../../core/fit/hand-cut.ts';
import type { MadeLayer } from '../../core/make-roof.ts';
import { useBench, useChosenRoof, useProduction, useStyle } from '../bench.ts';
import { type FitLine, peakLines, seamLines, seatLines, standLines } from '../draw/fit-lines.ts';
import { LitLine } from '../lit-line.tsx';

/** The proof before cutting: how the roof closes and sits, every line to be looked up on the roof itself. */
export const FitGroup = (): ReactElement | null => {
  const roof = useChosenRoof();
  const style = useStyle();
  const made = roof?.made;
  if (!roof || !made) return null;
  const seams = seamLines(made, style);
  return (
    <section className="group fit" aria-label="How it fits">
      <h3>How it fits: {roof.spec.title}</h3>
      <Lines lines={[...standLines(made, style), ...seatLines(roof, style)]} />
      <p className="fit-words">{made.fit.sentence.replace(/\.$/, '')} when every mark is on your ruler.</p>
      <Lines lines={peakLines(made, style)} />
      <CutByHand layers={made.layers} />
      {seams.length > 0 && (
        <details>
          <summary>{seams.length === 1 ? 'One seam' : `All ${seams.length} seams`}, side against side</summary>
          <Lines lines={seams} />
        </details>
      )}
    </section>
  );
};

const Lines = ({ lines }: { readonly lines: readonly FitLine[] }): ReactElement | null => {
  const selected = useBench((state) => state.selected);
  if (lines.length === 0) return null;
  return (
    <ul className="lit-lines">
      {lines.map(({ id, text, place }) => (
        <li key={id}>
          <LitLine by={`fit ${selected} ${id}`} roof={selected} place={place}>
            {text}
          </LitLine>
        </li>
      ))}
    </ul>
  );
};

/** Many roofs are cut in thought: beside the page, and anew once the roof has stood still for a moment. */
const useHandCut = (layers: readonly MadeLayer[], seed: number): HandCut | null => {
  const [found, setFound] = useState<{ readonly of: readonly MadeLayer[]; readonly cut: HandCut } | null>(null);
  useEffect(() => {
    let worker: Worker | null = null;
    const later = setTimeout(() => {
      worker = new Worker(new URL('../beside/hand-cut.worker.ts', import.meta.url), { type: 'module' });
      worker.onmessage = ({ data }: MessageEvent<HandCut>) => {
        setFound({ of: layers, cut: data });
        worker?.terminate();
      };
      worker.postMessage({ layers: layers.map(({ solid, net }) => ({ solid, net })), seed });
    }, WAIT);
    return () => {
      clearTimeout(later);
      worker?.terminate();
    };
  }, [layers, seed]);
  return found?.of === layers ? found.cut : null;
};

/** ms */
const WAIT = 150;

/** What cutting by hand does to the closing. */
const CutByHand = ({ layers }: { readonly layers: readonly MadeLayer[] }): ReactElement => {
  const seed = useProduction()?.project.seed ?? 1;
  const { units } = useStyle();
  const cut = useHandCut(layers, seed);
  if (cut === null) return <p className="fit-words">Cut by hand: reckoning…</p>;
  return (
    <p className="fit-words">
      Cut by hand within {showGap(HAND_MM, units)} of every line, half of such roofs close within{' '}
      {showGap(cut.median, units)}, and 95 in 100 within {showGap(cut.ninetyFifth, units)}.
    </p>
  );
};
