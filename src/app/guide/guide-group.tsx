import { lazy, type ReactElement, Suspense } from 'react';
import { useBench, useProduction } from '../bench.ts';

/** The guide comes when Build is first opened. */
const GuideSections = lazy(async () => ({ default: (await import('./guide-sections.tsx')).GuideSections }));

/** The order of work of this project, from what it takes to the last seam. */
export const GuideGroup = (): ReactElement | null => {
  const production = useProduction();
  const selected = useBench((state) => state.selected);
  if (production === null) return null;
  const chosen = production.roofs[selected]?.spec.id ?? null;
  return (
    <section className="group">
      <h3>The order of work</h3>
      <Suspense fallback={<p className="note">The guide is being written…</p>}>
        <GuideSections key={`${production.project.title} ${chosen}`} production={production} chosen={chosen} />
      </Suspense>
    </section>
  );
};
