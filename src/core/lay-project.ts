import { cutLayers } from './cut-layers.ts';
import type { Issue } from './issue.ts';
import { fingerprint } from './layout/fingerprint.ts';
import type { LayoutJob } from './layout/job.ts';
import type { Layout, PieceToLay } from './layout/layout.ts';
import { leftOutIssues } from './layout/left-out.ts';
import { type NamedPiece, placePositions } from './layout/positions.ts';
import { areComparable } from './layout/preference.ts';
import { askewFaces } from './layout/print-up.ts';
import { splitsAt } from './layout/splits.ts';
import type { MadeRoof } from './make-roof.ts';
import type { Project, Stock } from './project/project.ts';

/** Every piece of every copy, with the sheets it may go on. */
export function piecesToLay({ stock }: Pick<Project, 'stock'>, roofs: readonly MadeRoof[]): readonly NamedPiece[] {
  return roofs.flatMap((made, roof) =>
    cutLayers(made).flatMap(({ spec: { stock: ids }, net }, layer) => {
      const { spec } = made;
      const choices = ids.map((id) => stock.findIndex((one) => one.id === id));
      const prints = net.pieces.map(({ outline }) => fingerprint(outline));
      return Array.from({ length: spec.copies }, (_, copy) => copy).flatMap((copy) =>
        net.pieces.map(
          ({ id, title, outline, width, height }, piece): NamedPiece => ({
            roof,
            roofId: spec.id,
            layer,
            piece,
            copy,
            id,
            fingerprint: prints[piece] as string,
            outline,
            width,
            height,
            stock: choices,
            title: `${spec.title}: ${title}`,
            path: layerPath(made, roof, layer),
          }),
        ),
      );
    }),
  );
}

const layerPath = ({ spec }: MadeRoof, roof: number, layer: number): string =>
  layer < spec.layers.length ? `roofs[${roof}].layers[${layer}]` : `roofs[${roof}].seat`;

/**
 * What the laying of a project's pieces needs, and what is to be said before: positions that are of no use any more, prices that
 * cannot be compared, prints that run askew. `locked`: only what is locked stays where it is, all else is laid anew.
 */
export function layoutJob(
  { stock, layout: rules, positions, seed }: Project,
  roofs: readonly MadeRoof[],
  keep: 'all' | 'locked' = 'all',
): { readonly job: LayoutJob; readonly issues: readonly Issue[] } {
  const pieces = piecesToLay({ stock }, roofs);
  const kept = positions
    .map((position, i) => ({ position, i }))
    .filter(({ position }) => keep === 'all' || position.locked);
  const { fixed, issues } = placePositions(
    pieces,
    stock,
    kept.map(({ position }) => position),
  );
  const placed = issues.map((issue) => {
    const at = /^positions\[(\d+)\]$/.exec(issue.path)?.[1];
    return at === undefined ? issue : { ...issue, path: `positions[${kept[Number(at)]?.i}]` };
  });
  const papers = stock.map(({ picture: _, ...one }) => one);
  return {
    job: { pieces, stock: papers, rules, fixed, seed },
    issues: [...placed, ...priceIssues(rules, stock), ...askewIssues(stock, roofs)],
  };
}

const priceIssues = ({ prefer }: Project['layout'], stock: readonly Stock[]): readonly Issue[] =>
  prefer === 'cheapest' && !areComparable(stock)
    ? [
        {
          level: 'warning',
          code: 'prices-differ',
          path: 'layout.prefer',
          message: 'The papers have prices in different currencies, so none can be called the cheapest.',
          remedy: 'Give all prices in one currency; until then papers are taken as they are listed.',
        },
      ]
    : [];

/** A note for each layer on paper with an up of which some panels do not stand upright. */
function askewIssues(stock: readonly Stock[], roofs: readonly MadeRoof[]): readonly Issue[] {
  return roofs.flatMap((made, roof) =>
    cutLayers(made).flatMap(({ spec, solid, net }, layer): readonly Issue[] => {
      const papers = stock.filter(({ id }) => spec.stock.includes(id));
      if (!papers.some(({ direction }) => direction === 'one-way') || spec.as === 'board') return [];
      const faces = net.pieces.flatMap((piece) => askewFaces(piece, solid).map((face) => solid.faces[face]?.id ?? ''));
      if (faces.length === 0) return [];
      return [
        {
          level: 'note',
          code: 'print-askew',
          path: layerPath(made, roof, layer),
          numbers: { panelsCount: faces.length },
          message: `The print does not stand upright on ${faces.length === 1 ? 'one panel' : '{panelsCount} panels'}: ${faces.join(', ')}.`,
          remedy: 'Cut a piece for each panel, or take a paper without an up.',
          place: { layer, faces },
        },
      ];
    }),
  );
}

/** Why pieces have no place, and what would help. */
export function leftOutOf(job: LayoutJob, layout: Layout, roofs: readonly MadeRoof[]): readonly Issue[] {
  return leftOutIssues(job, layout, ({ roof, layer, piece }: PieceToLay) => {
    const made = roofs[roof];
    const cut = made ? cutLayers(made)[layer] : undefined;
    const found = cut?.net.pieces[piece];
    return cut && found ? splitsAt(found, cut.solid) : [];
  });
}
