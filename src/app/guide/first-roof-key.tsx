import { lazy, type ReactElement, Suspense, useState } from 'react';

const FirstRoof = lazy(async () => ({ default: (await import('./first-roof.tsx')).FirstRoof }));

/** Opens the lesson of a first roof. */
export const FirstRoofKey = ({ className = 'key' }: { readonly className?: string }): ReactElement => {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <button type="button" className={className} onClick={() => setOpen(true)}>
        A first roof, in six steps
      </button>
      {isOpen && (
        <Suspense fallback={null}>
          <FirstRoof onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </>
  );
};
