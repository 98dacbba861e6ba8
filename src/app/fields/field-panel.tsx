import { lazy, type ReactElement, Suspense } from 'react';
import { formatPath } from '../state/file-path.ts';
import type { FieldSpec } from './field-spec.ts';

const LevaFields = lazy(async () => ({ default: (await import('./leva-panel.tsx')).LevaFields }));

/** The parameters of one heading. leva comes after the first paint. */
export const FieldPanel = ({ fields }: { readonly fields: readonly FieldSpec[] }): ReactElement => {
  const signature = fields.map((field) => `${field.key} ${formatPath(field.path)} ${field.label}`).join('|');
  return (
    <div className="fields" style={{ minHeight: `${fields.length * 40}px` }}>
      <Suspense fallback={null}>
        <LevaFields key={signature} fields={fields} />
      </Suspense>
    </div>
  );
};
