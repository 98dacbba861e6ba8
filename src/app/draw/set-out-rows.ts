import { edgesOfFaces, measureSolid } from '../../core/solid/measure.ts';
import type { EdgeRole, Solid } from '../../core/solid/solid.ts';
import { CUT_MM } from '../../core/tolerance.ts';
import { type Ruler, roundToRuler } from '../../core/units/units.ts';

export interface SetOutRow {
  readonly name: string;
  /** mm */
  readonly length: number;
  readonly mark: number;
  /** Mark less length. */
  readonly error: number;
}

export interface SetOutTable {
  /** Titles of the panels that have these measures. */
  readonly panels: readonly string[];
  readonly rows: readonly SetOutRow[];
}

const names: Readonly<Record<EdgeRole, string>> = {
  eave: 'Eave',
  ridge: 'Ridge',
  hip: 'Hip',
  valley: 'Valley',
  verge: 'Verge',
  break: 'Break',
  abutment: 'Edge under the slope',
  rim: 'Rim',
  foot: 'Foot',
};

/** The measures of every panel on the maker's ruler; panels that measure alike share a table. */
export const setOutTables = (solid: Solid, ruler: Ruler): readonly SetOutTable[] => {
  const measures = measureSolid(solid);
  const edgesOf = edgesOfFaces(solid);
  const tables = new Map<string, { panels: string[]; rows: SetOutRow[] }>();
  solid.faces.forEach((face, f) => {
    const { slant } = measures.faces[f] ?? { slant: 0 };
    const row = (name: string, length: number): SetOutRow => ({ name, length, ...roundToRuler(length, ruler) });
    const sides = [...new Set(edgesOf[f])].flatMap((e) => solid.edges[e] ?? []);
    const { surface } = face.roll ?? {};
    const radius =
      surface?.form === 'cone'
        ? [row('Radius of the lower arc', surface.apex), row('Radius of the upper arc', surface.apex - slant)]
        : [];
    const rows = sides.map(({ role, length, via }) => {
      const name = via ? `${names[role]}, round the curve` : names[role];
      const twins = sides.filter((side) => side.role === role && !side.via === !via);
      const isAlike = twins.every((twin) => twin.length.toFixed(3) === length.toFixed(3));
      const index = twins.findIndex((twin) => twin.length === length);
      return row(
        twins.length > 1 && isAlike ? `${name}, each` : twins.length > 1 ? `${name} ${index + 1}` : name,
        length,
      );
    });
    const distinct = rows.filter((one, i) => rows.findIndex((other) => other.name === one.name) === i);
    const all = [...radius.filter(({ length }) => length > CUT_MM), ...distinct, row('Up the middle', slant)];
    const key = all.map((one) => `${one.name} ${one.length.toFixed(3)}`).join('|');
    const table = tables.get(key);
    if (table === undefined) tables.set(key, { panels: [face.title], rows: all });
    else table.panels.push(face.title);
  });
  return [...tables.values()];
};
