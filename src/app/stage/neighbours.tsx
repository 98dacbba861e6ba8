import { type ReactNode, useMemo } from 'react';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { BodyBlock } from './body-block.tsx';
import { finishLayer, topLayer } from './finish.ts';
import { FinishedLayer } from './finished-layer.tsx';
import type { Papers } from './papers.ts';

export interface NeighboursProps {
  readonly roofs: readonly MadeRoof[];
  /** Indices of the roofs to show, and where each stands. */
  readonly town: readonly { readonly roof: number; readonly at: Vec2 }[];
  readonly sheets: readonly LaidSheet[];
  readonly stock: readonly Stock[];
  readonly papers: Papers;
}

/** The project's other roofs, finished, on their bodies: the rest of the harbour. */
export const Neighbours = ({ roofs, town, sheets, stock, papers }: NeighboursProps): ReactNode =>
  town.map(({ roof, at }) => {
    const entry = roofs[roof];
    const top = topLayer(entry);
    if (entry === undefined || entry.made === null || top === null) return null;
    return (
      <Neighbour key={entry.spec.id} at={at} roof={roof} entry={entry} sheets={sheets} stock={stock} papers={papers} />
    );
  });

interface NeighbourProps extends Omit<NeighboursProps, 'roofs' | 'town'> {
  readonly at: Vec2;
  readonly roof: number;
  readonly entry: MadeRoof;
}

const Neighbour = ({ at, roof, entry, sheets, stock, papers }: NeighbourProps): ReactNode => {
  const top = topLayer(entry);
  const finish = useMemo(() => {
    const outer = topLayer(entry);
    return outer === null ? null : finishLayer({ roof, layer: outer.index, copy: 0 }, outer.layer, sheets, stock);
  }, [roof, entry, sheets, stock]);
  if (top === null || finish === null || entry.made === null) return null;
  return (
    <group position={[at[0], at[1], 0]}>
      {entry.spec.body === null ? null : <BodyBlock body={entry.spec.body} bold={false} />}
      <FinishedLayer layer={top.layer} finish={finish} papers={papers} rest={entry.made.fit.rest} sunk={0} line={0.3} />
    </group>
  );
};
