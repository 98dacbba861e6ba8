import { type ReactNode, useMemo } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet, PieceKey } from '../../core/layout/layout.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { normalAt } from '../../core/solid/face-frame.ts';
import { finishLayer, seamsOf, topLayer } from './finish.ts';
import { FinishedLayer } from './finished-layer.tsx';
import type { Papers } from './papers.ts';

export interface StandingByProps {
  readonly roof: MadeRoof;
  readonly index: number;
  /** The piece whose panel is to be seen; null: the front. */
  readonly inHand: PieceKey | null;
  readonly sheets: readonly LaidSheet[];
  readonly stock: readonly Stock[];
  readonly papers: Papers;
  /** Middle of its place on the table. */
  readonly at: Vec2;
  readonly line: number;
}

/** How far it leans back, so that its slopes are seen from straight above, radians; and how far it is turned aside. */
const LEAN = -0.95;
const ASIDE = 0.4;

/** Half the room that a roof takes however it is turned, mm; 0 where there is none. */
export const roofReach = ({ made }: Pick<MadeRoof, 'made'>): number => {
  const vertices = made?.solid.vertices ?? [];
  const [low, high] = [Math.min(...vertices.map((v) => v[2])), Math.max(...vertices.map((v) => v[2]))];
  return Math.max(0, ...vertices.map(([x, y, z]) => Math.hypot(x, y, z - (low + high) / 2)));
};

/** The finished roof beside its sheets, wearing what lies on them this moment; it turns the panel in hand to the front. */
export const StandingBy = ({ roof, index, inHand, sheets, stock, papers, at, line }: StandingByProps): ReactNode => {
  const top = topLayer(roof);
  const own = inHand?.roof === index ? inHand : null;
  const shown = own === null ? top?.index : own.layer;
  const layer = cutLayers(roof)[shown ?? 0] ?? top?.layer;
  const copy = own?.copy ?? 0;
  const finish = useMemo(
    () => (layer === undefined ? null : finishLayer({ roof: index, layer: shown ?? 0, copy }, layer, sheets, stock)),
    [layer, index, shown, copy, sheets, stock],
  );
  const seams = useMemo(
    () => (layer === undefined ? [] : seamsOf(layer, { roof: index, layer: shown ?? 0, copy }, sheets, stock)),
    [layer, index, shown, copy, sheets, stock],
  );
  const towards = useMemo(() => {
    const face = layer?.solid.faces[layer.net.pieces[own?.piece ?? -1]?.panels[0]?.face ?? -1];
    if (layer === undefined || face === undefined) return 0;
    const [x, y] = normalAt(layer.solid.vertices, face, layer.solid.vertices[face.loop[0] ?? 0] ?? [0, 0, 0]);
    return Math.hypot(x, y) < 0.05 ? 0 : -Math.PI / 2 - Math.atan2(y, x);
  }, [layer, own?.piece]);
  if (layer === undefined || finish === null) return null;
  const heights = layer.solid.vertices.map((v) => v[2]);
  const middle = (Math.min(...heights) + Math.max(...heights)) / 2;
  return (
    <group position={[at[0], at[1], roofReach(roof)]} rotation={[LEAN, 0, 0]}>
      <group rotation={[0, 0, towards + ASIDE]}>
        <group position={[0, 0, -middle]}>
          <FinishedLayer layer={layer} finish={finish} papers={papers} rest={0} sunk={0} line={line} seams={seams} />
        </group>
      </group>
    </group>
  );
};
