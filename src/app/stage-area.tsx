import { Component, lazy, type ReactElement, type ReactNode, Suspense, useEffect, useState } from 'react';
import { bench, useBench, useProduction, useReading, useStyle } from './bench.ts';
import { laying, useLaying } from './laying/laying-store.ts';
import { FlatInstead, LayingTable } from './lazy-parts.tsx';
import { canDrawStage } from './stage/probe.ts';

let stage: Promise<typeof import('./stage/stage.tsx')> | null = null;
const loadStage = (): NonNullable<typeof stage> => {
  stage ??= import('./stage/stage.tsx');
  return stage;
};

const Stage = lazy(loadStage);

/** The bench without its stage: what is caught here must never take the numbers away. */
class StageBoundary extends Component<
  { readonly fallback: ReactNode; readonly children: ReactNode },
  { readonly failed: boolean }
> {
  override state: { readonly failed: boolean } = { failed: false };

  static getDerivedStateFromError(): { readonly failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    return this.state.failed ? this.props.fallback : this.props.children;
  }
}

const useMedia = (media: string): boolean => {
  const [matches, setMatches] = useState(() => window.matchMedia(media).matches);
  useEffect(() => {
    const query = window.matchMedia(media);
    const onChange = (): void => setMatches(query.matches);
    query.addEventListener('change', onChange);
    return () => query.removeEventListener('change', onChange);
  }, [media]);
  return matches;
};

/** The table in 3D; where it cannot be drawn, a kind word and the flat net. Covered by a sheet it keeps its state. */
export const StageArea = ({ isCovered }: { readonly isCovered: boolean }): ReactElement => {
  const [canDraw] = useState(() => {
    const can = canDrawStage();
    // Asked for before everything else: it is the largest part, and what it shows takes the longest to be ready.
    if (can) void loadStage().catch(() => undefined);
    return can;
  });
  const isLaying = useBench(({ place, paperView }) => place === 'paper' && paperView === 'sheets');
  return (
    <section className={`stage-area ${isCovered ? 'is-covered' : ''}`} aria-label="The table">
      {canDraw ? (
        <StageBoundary fallback={flat}>
          <Suspense fallback={waiting}>
            <Table />
          </Suspense>
        </StageBoundary>
      ) : (
        flat
      )}
      {isLaying && !isCovered && <LayingTable />}
    </section>
  );
};

const waiting = <p className="waiting">The table is being laid…</p>;

const nothingCovered = { left: 0, right: 0, top: 0, bottom: 0 };
/** Cards and panel with their gaps: `--cards`, `--panel` and `--gap` of the style sheet. */
const coveredBySides = { left: 248, right: 368, top: 0, bottom: 0 };

/** The same with the card of the piece in hand under the sheets, as high as it may become. */
const coveredByCard = { ...coveredBySides, bottom: 126 };
const coveredByCardOnly = { ...nothingCovered, bottom: 156 };
/** The card beside the sheets on a phone held sideways. */
const coveredBeside = { ...nothingCovered, right: 292 };
/** Slips over the sheets with their gaps: a notice of one thing, the first line of what does not fit. */
const [NOTICE, SLIP] = [104, 62];

const flat = <FlatInstead />;

const pointAt = (layer: number, edge: string | null): void => {
  const { selected } = bench.store.getState();
  bench.store.setState({ edgeAtHand: edge === null ? null : { roof: selected, layer, edge } });
};

const tellLookedRound = (isLookedRound: boolean): void => laying.setState({ isLookedRound });

const Table = (): ReactElement => {
  const production = useProduction();
  const selected = useBench((state) => state.selected);
  const t = useBench((state) => state.t);
  // The roof as it folds is looked at alike wherever it lies on the table.
  const view = useBench(({ place, paperView }) => (place === 'paper' && paperView === 'roof' ? 'roof' : place));
  const lit = useBench((state) => (state.lit?.roof === state.selected ? state.lit.place : null));
  const edgeAtHand = useBench((state) => state.edgeAtHand);
  const moving = useLaying((state) => (state.from === production?.sheets ? state.moving : null));
  const inHand = useLaying((state) => state.inHand);
  const look = useLaying((state) => state.look);
  const isPaper = useBench(({ place }) => place === 'paper');
  const isLaying = useBench(({ place, paperView }) => place === 'paper' && paperView === 'sheets');
  const hasNotice = useBench((state) => state.notice !== null);
  const hasError = useReading().issues.some(({ level }) => level === 'error');
  const { units } = useStyle();
  const reducedMotion = useMedia('(prefers-reduced-motion: reduce)');
  const isNarrow = useMedia('(max-width: 860px)');
  const isLow = useMedia('(max-width: 860px) and (max-height: 480px)');
  if (production === null) return waiting;
  const roundSheets = {
    ...(isLow ? coveredBeside : isNarrow ? coveredByCardOnly : coveredByCard),
    top: hasNotice ? NOTICE : hasError ? SLIP : 0,
  };
  return (
    <Stage
      roofs={production.roofs}
      selected={selected}
      t={t}
      view={view}
      units={units}
      sheets={production.sheets}
      stock={production.project.stock}
      moving={moving ?? undefined}
      inHand={inHand}
      look={look}
      onLookRound={tellLookedRound}
      showSeams={view === 'roof' && isPaper}
      lit={lit}
      edgeAtHand={edgeAtHand}
      onPoint={pointAt}
      reducedMotion={reducedMotion}
      clear={isLaying ? roundSheets : isNarrow ? nothingCovered : coveredBySides}
    />
  );
};
