import { type ReactElement, useEffect, useState } from 'react';
import { showGap } from '../../core/fit/fit.ts';
import { HAND_MM, type HandCut, handCut } from '../../core/fit/hand-cut.ts';
import type { MadeLayer } from '../../core/pipeline.ts';
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
      <p className="fit-words">{made.fit.sentence.replace('.', '')} when every mark is on your ruler.</p>
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

/** Many roofs are cut in thought; that is done when everything else on the page stands. */
const CutByHand = ({ layers }: { readonly layers: readonly MadeLayer[] }): ReactElement | null => {
  const seed = useProduction()?.project.seed ?? 1;
  const { units } = useStyle();
  const [found, setFound] = useState<{ of: readonly MadeLayer[]; cut: HandCut } | null>(null);
  useEffect(() => {
    const later = setTimeout(() => setFound({ of: layers, cut: handCut(layers, seed) }), 60);
    return () => clearTimeout(later);
  }, [layers, seed]);
  if (found?.of !== layers) return <p className="fit-words">Cut by hand: reckoning…</p>;
  const { median, ninetyFifth } = found.cut;
  return (
    <p className="fit-words">
      Cut by hand within {showGap(HAND_MM, units)} of every line, half of such roofs close within{' '}
      {showGap(median, units)}, and 95 in 100 within {showGap(ninetyFifth, units)}.
    </p>
  );
};
