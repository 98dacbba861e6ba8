import { frontMeasures, measureSolid } from '../../core/solid/measure.ts';
import type { EdgeRole, Solid } from '../../core/solid/solid.ts';
import { toDegrees } from '../../core/units/units.ts';

export type RoofNumber =
  | { readonly name: string; readonly quantity: 'length' | 'area'; readonly value: number }
  | { readonly name: string; readonly quantity: 'angles'; readonly values: readonly number[] };

const edgeNames: Readonly<Partial<Record<EdgeRole, string>>> = {
  ridge: 'Ridge',
  hip: 'Hip',
  valley: 'Valley',
  verge: 'Verge',
  break: 'Break',
};

/** Values that differ by more than a hundredth, smallest first. */
const distinct = (values: readonly number[]): number[] =>
  [...new Set(values.map((value) => Number(value.toFixed(2))))].sort((a, b) => a - b);

/** What a maker wants to know of a roof; lengths mm, area mm², angles in degrees. */
export const roofNumbers = (solid: Solid): readonly RoofNumber[] => {
  const { pitch, slant, run, face } = frontMeasures(solid);
  const measures = measureSolid(solid);
  const edges = Object.entries(edgeNames).flatMap(([role, name]) => {
    const lengths = distinct(solid.edges.filter((edge) => edge.role === role).map((edge) => edge.length));
    return lengths.map((value, i): RoofNumber => {
      const title = lengths.length === 1 ? name : `${name} ${i + 1}`;
      return { name: title, quantity: 'length', value };
    });
  });
  const between = distinct(
    solid.edges.flatMap((edge) =>
      edge.dihedral === null || edge.role === 'abutment' ? [] : [toDegrees(edge.dihedral)],
    ),
  );
  const corners = (measures.faces[face]?.angles ?? []).map((angle) => Number(toDegrees(angle).toFixed(2)));
  return [
    { name: 'Rise', quantity: 'length', value: measures.rise },
    { name: 'Run', quantity: 'length', value: run },
    { name: 'Slant', quantity: 'length', value: slant },
    ...edges.slice(0, 6),
    { name: 'Pitch', quantity: 'angles', values: [Number(toDegrees(pitch).toFixed(2))] },
    { name: 'Corners of the front panel', quantity: 'angles', values: corners },
    { name: 'Between panels', quantity: 'angles', values: between.slice(0, 4) },
    { name: 'Paper area, all panels', quantity: 'area', value: measures.area },
  ];
};
