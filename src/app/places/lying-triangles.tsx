import type { ReactElement } from 'react';
import type { EdgeTriangle, PanelTriangles } from '../../core/guide/panel-triangles.ts';
import type { EdgeRole } from '../../core/solid/solid.ts';
import { TriangleFigure } from './triangle-figure.tsx';

/** So many slanted edges are explained; the others follow the same way. */
const MOST = 2;

/** What an edge is called in a sentence. */
const nameOf = (role: EdgeRole): string => (role === 'abutment' ? 'wall head' : role);

/** The triangles that lie in a panel: its middle line and a piece of its lower edge make each slanted edge. */
export const LyingTriangles = ({
  triangles: { edges, upright },
  show,
}: {
  readonly triangles: PanelTriangles;
  readonly show: (mm: number) => string;
}): ReactElement => (
  <>
    {edges.slice(0, MOST).map((edge) => (
      <Lying
        key={`${edge.role} ${edge.along} ${edge.up}`}
        edge={edge}
        isFirst={edge === edges[0] && upright !== null}
        show={show}
      />
    ))}
  </>
);

const Lying = ({
  edge: { role, along, up, length, count, isHalfEave },
  isFirst,
  show,
}: {
  readonly edge: EdgeTriangle;
  readonly isFirst: boolean;
  readonly show: (mm: number) => string;
}): ReactElement => (
  <>
    <TriangleFigure
      up={{ length: up, text: `up ${show(up)}` }}
      across={{ length: along, text: `${isHalfEave ? 'half eave' : 'along'} ${show(along)}` }}
      slanted={`${nameOf(role)} ${show(length)}`}
    />
    <p>
      {isFirst && 'Now lay the panel flat on the table. '}
      From the {nameOf(role)}’s lower end it is <b>{show(along)}</b> along
      {isHalfEave ? ', half the eave,' : ''} and <b>{show(up)}</b> up the panel to its upper end. That is a right
      triangle again, and its longest side is the {nameOf(role)}: <b>{show(length)}</b>
      {count > 1 ? ', on either side alike.' : '.'}
    </p>
  </>
);
