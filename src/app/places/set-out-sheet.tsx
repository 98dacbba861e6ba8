import { lazy, type ReactElement, Suspense } from 'react';

const Steps = lazy(() => import('./set-out-steps.tsx').then(({ SetOutSteps }) => ({ default: SetOutSteps })));

/** Set out: one sheet or strip with rulers and numbered marks, and beside it what to do, one action a step. */
export const SetOutSheet = (): ReactElement => (
  <section className="sheet" aria-label="Set out by ruler">
    <Suspense fallback={<p className="waiting">The marks are being worked out…</p>}>
      <Steps />
    </Suspense>
  </section>
);
