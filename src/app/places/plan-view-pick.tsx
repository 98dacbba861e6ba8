import type { ReactElement } from 'react';
import { bench, useBench } from '../bench.ts';
import { Either } from '../either.tsx';

/** What lies on the table in Body and in Roof: the body and its roof, or their plan. */
export const PlanViewPick = ({ of }: { readonly of: 'bodyView' | 'roofView' }): ReactElement => {
  const view = useBench((state) => state[of]);
  return (
    <Either
      legend="On the table"
      choices={[
        { value: 'standing', title: 'As it stands' },
        { value: 'plan', title: 'In plan' },
      ]}
      value={view}
      onChoose={(value) => bench.store.setState({ [of]: value === 'plan' ? 'plan' : 'standing' })}
    />
  );
};
