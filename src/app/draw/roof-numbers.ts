import type { Vec2 } from '../../core/geometry/vector.ts';
import { frontMeasures, measureSolid } from '../../core/solid/measure.ts';
import type { Edge, EdgeRole, Solid } from '../../core/solid/solid.ts';
import { isPositive, isSameAngle } from '../../core/tolerance.ts';
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

/** What a compass draws of the cones: all parts of one cone together. */
function sectors({ faces }: Solid): readonly RoofNumber[] {
  const cones = faces.flatMap(({ roll }) => (roll?.surface.form === 'cone' ? [{ roll, cone: roll.surface }] : []));
  const radii = [...new Set(cones.map(({ cone }) => cone.apex))];
  return radii.flatMap((apex, i): RoofNumber[] => {
    const angle = cones
      .filter(({ cone }) => cone.apex === apex)
      .reduce((sum, { roll }) => {
        const [first, last] = [roll.rulings[0]?.[1], roll.rulings.at(-1)?.[1]].map(
          (at) => roll.flat[at ?? 0] as Vec2,
        ) as [Vec2, Vec2];
        const turned = ([x, y]: Vec2): number => Math.atan2(x, apex - y);
        return sum + turned(last) - turned(first);
      }, 0);
    const which = radii.length === 1 ? '' : ` ${i + 1}`;
    return [
      { name: `Radius of sector${which}`, quantity: 'length', value: apex },
      { name: `Angle of sector${which}`, quantity: 'angles', values: [Number(toDegrees(angle).toFixed(2))] },
    ];
  });
}

/** What a maker wants to know of a roof; lengths mm, area mm², angles in degrees. */
export const roofNumbers = (solid: Solid): readonly RoofNumber[] => {
  const { pitch, slant, run, face } = frontMeasures(solid);
  const measures = measureSolid(solid);
  // Where a smooth panel is made of two, there is nothing to measure.
  const isSmooth = ({ dihedral }: Edge): boolean => dihedral !== null && isSameAngle(dihedral, Math.PI);
  const folded = solid.edges.filter((edge) => !isSmooth(edge));
  const edges = Object.entries(edgeNames).flatMap(([role, name]) => {
    const lengths = distinct(folded.filter((edge) => edge.role === role).map((edge) => edge.length));
    return lengths.map((value, i): RoofNumber => {
      const title = lengths.length === 1 ? name : `${name} ${i + 1}`;
      return { name: title, quantity: 'length', value };
    });
  });
  const between = distinct(
    folded.flatMap((edge) => (edge.dihedral === null || edge.role === 'abutment' ? [] : [toDegrees(edge.dihedral)])),
  );
  const isRolled = solid.faces[face]?.roll !== undefined;
  const corners = (measures.faces[face]?.angles ?? []).map((angle) => Number(toDegrees(angle).toFixed(2)));
  return [
    { name: 'Rise', quantity: 'length', value: measures.rise },
    // A panel that leans out has no run to speak of.
    ...(isPositive(run) ? [{ name: 'Run', quantity: 'length', value: run } as const] : []),
    { name: 'Slant', quantity: 'length', value: slant },
    ...edges.slice(0, 6),
    { name: 'Pitch', quantity: 'angles', values: [Number(toDegrees(pitch).toFixed(2))] },
    ...(isRolled
      ? sectors(solid)
      : [{ name: 'Corners of the front panel', quantity: 'angles', values: corners } as const]),
    ...(between.length > 0
      ? [{ name: 'Between panels', quantity: 'angles', values: between.slice(0, 4) } as const]
      : []),
    { name: 'Paper area, all panels', quantity: 'area', value: measures.area },
  ];
};
