/** Rows as columns, two spaces apart, with a rule of dashes under the heading. Lines end without blanks. */
export function tableText(heading: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [heading, heading.map((_, column) => '-'.repeat(widthOf([heading, ...rows], column))), ...rows];
  return all
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widthOf(all, column)))
        .join('  ')
        .trimEnd(),
    )
    .map((line) => `${line}\n`)
    .join('');
}

const widthOf = (rows: readonly (readonly string[])[], column: number): number =>
  Math.max(...rows.map((row) => (row[column] ?? '').length));
