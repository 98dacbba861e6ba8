import roofShapes from '../../shared/roof-shapes.json';
import type { ShapeValues } from '../../src/core/project/project.ts';
import { findKind, kinds } from '../../src/core/roofs/catalogue.ts';

/** What a value of the open vocabulary `roof:shape` is here, and what other vocabularies call it. */
export interface RoofShape {
  readonly osm: string;
  readonly overture: string | null;
  readonly ifc: string | null;
  readonly citygml: string | null;
  readonly inspire: string | null;
  readonly kind: string;
  /** Parameters that make this value of the kind. */
  readonly needs: readonly string[];
  /** A roof of this value, mm and degrees. */
  readonly shape: ShapeValues;
  readonly says: string;
}

export const shapes: readonly RoofShape[] = roofShapes.values as unknown as readonly RoofShape[];
/** Kinds that no value means: the nearest one, and what sets the kind apart. */
export const nearest: Readonly<Record<string, { readonly osm: string; readonly says: string }>> = roofShapes.nearest;

const link = (kind: string): string => {
  const title = findKind(kind)?.title ?? '';
  return `[${title}](kinds.md#${title.toLowerCase().replaceAll(' ', '-')})`;
};
const code = (value: string | null): string => (value === null ? '' : `\`${value}\``);

/** The page on names of roof shapes in building models. */
export function roofShapesPage(): string {
  return [
    '# Names of roof shapes in building models',
    '',
    '<!-- generated from shared/roof-shapes.json by `node scripts/run.mjs scripts/docs/write-docs.ts`, checked by tests/docs.test.ts -->',
    '',
    'Maps and building models name the shape of a roof by a word of a fixed list. This is which [kind](kinds.md) makes which word,',
    'and which parameters it takes. `roof:height` is the `rise`; `roof:angle` is the `pitch`.',
    '',
    '| `roof:shape` | Kind | Parameters | Example | |',
    '| --- | --- | --- | --- | --- |',
    ...shapes.map(
      ({ osm, kind, needs, shape, says }) =>
        `| \`${osm}\` | ${link(kind)} | ${needs.map(code).join(', ')} | \`${JSON.stringify(shape)}\` | ${says} |`,
    ),
    '',
    '## The same in other lists',
    '',
    '| `roof:shape` | Overture `roof_shape` | IFC4 `IfcRoofTypeEnum` | CityGML 2.0 `roofType` | INSPIRE `RoofTypeValue` |',
    '| --- | --- | --- | --- | --- |',
    ...shapes.map(
      ({ osm, overture, ifc, citygml, inspire }) =>
        `| \`${osm}\` | ${code(overture)} | ${code(ifc)} | ${code(citygml)} | ${code(inspire)} |`,
    ),
    '',
    'The pairs are ours; the lists are those of the OpenStreetMap wiki, Overture Maps schema 1.18, ISO 16739 (IFC4), the SIG3D code',
    'list of CityGML 2.0 and the INSPIRE data specification on buildings. What they name beyond: Overture’s `spherical` is a dome;',
    'IFC’s `RAINBOW_ROOF` (a pointed arch) and INSPIRE’s `hyperbolicParabaloidalRoof` bend two ways or have no panels that lie flat,',
    'and are not made; two sheds of different heights (CityGML 1020, INSPIRE `dualPentRoof`) are two roofs of one project.',
    '',
    '## Kinds that no word means',
    '',
    '| Kind | Nearest `roof:shape` | What sets it apart |',
    '| --- | --- | --- |',
    ...kinds.flatMap(({ id }) => {
      const found = nearest[id];
      return found ? [`| ${link(id)} | \`${found.osm}\` | ${found.says} |`] : [];
    }),
    '',
  ].join('\n');
}
