import * as z from 'zod/mini';
import { countLimits, defaults } from './limits.ts';
import { paperSizes } from './paper-sizes.ts';
import { printPatterns } from './prints.ts';
import {
  describe,
  describeUse,
  group,
  idSchema,
  optional,
  optionalWhole,
  optionalWords,
  type Schema,
  textSchema,
  whole,
  words,
} from './schema-parts.ts';

/*
 * The keys of pages, papers, and of how and where pieces are laid on them.
 */

const mmText = (mm: number): string => `${mm} mm`;

/** The pages that are printed. */
export const pageSchema = (lengthSchema: Schema): Schema =>
  group(
    {
      size: optionalWords(
        paperSizes.map((size) => size.name),
        'A4 with millimetres, Letter with inches.',
      ),
      orientation: optionalWords(['portrait', 'landscape'], 'Which side lies across; portrait unless said otherwise.'),
      margin: optional(lengthSchema, `Left free all round; ${mmText(defaults.pageMargin)} unless said otherwise.`),
      overlap: optional(
        lengthSchema,
        `Shared by two pages of one piece; ${mmText(defaults.pageOverlap)} unless said otherwise.`,
      ),
      arrange: optionalWords(
        ['close', 'as-laid'],
        'What the pages show. close: pieces close together. as-laid: the sheets, with every piece where it lies on them; a sheet larger than the page as tiles. close unless said otherwise.',
      ),
      marks: optionalWords(
        ['printed-side', 'both'],
        'Where letters and names are printed. both: after every page one for its wrong side, mirrored, with all of them; on the printed side letters then stand on flaps alone. printed-side unless said otherwise.',
      ),
      correction: optional(
        group(
          {
            across: optional(lengthSchema, 'What the bar of 100 mm across the page measures on the print.'),
            up: optional(lengthSchema, 'What 100 mm up the page measure on the print, by any line of known length.'),
          },
          'A printer that prints too large or too small.',
        ),
        'A printer that prints too large or too small: what its 100 mm bars measure.',
      ),
    },
    'The pages that are printed.',
  );

/** A paper the maker owns. */
export function stockSchema(lengthSchema: Schema): Schema {
  const length = (description: string): Schema => optional(lengthSchema, description);
  const { min, max } = countLimits.corners;
  const corners = `a list of ${min} to ${max} corners as [x, y]`;
  const corner = z.tuple([lengthSchema, lengthSchema], { error: 'a corner as [x, y], two lengths' });
  return group(
    {
      id: idSchema('What layers call it.'),
      name: optional(textSchema('Its name.'), 'What the maker calls it; the id unless said otherwise.'),
      width: length('From left to right as the print stands upright; of an offcut it follows from the outline.'),
      height: length('From bottom to top as the print stands upright; of an offcut it follows from the outline.'),
      outline: optional(
        z
          .array(corner, { error: corners })
          .check(z.minLength(min, { error: corners }), z.maxLength(max, { error: corners })),
        'An offcut: its corners going round, as [x, y] from anywhere, as the print stands upright.',
      ),
      count: optionalWhole(countLimits.count, 'Sheets owned; as many as needed unless said, of an offcut one.'),
      thickness: length('Thickness of the paper; none unless said.'),
      direction: optionalWords(
        ['one-way', 'two-way', 'any'],
        'one-way: the print has an up and pieces keep theirs; two-way: pieces may be turned half round; any: every angle. one-way unless said otherwise.',
      ),
      margin: length('Not to be used along the edges; 0 unless said otherwise.'),
      gap: length('Least distance of two pieces; 0 unless said otherwise, as makers cut along shared lines.'),
      price: optional(priceSchema, 'What it costs; only needed to lay for the least price.'),
      picture: optional(
        group(
          {
            file: textSchema(
              'The picture in the file (a data URL of PNG, JPEG or WebP), or the name of its file beside the project.',
            ),
            width: describeUse(
              lengthSchema,
              'How much paper the picture shows from left to right; it repeats from the lower left.',
            ),
          },
          'What is printed on the paper, as a picture.',
        ),
        'What is printed on the paper, as a picture.',
      ),
      print: optional(
        group(
          {
            pattern: words(printPatterns, 'What is printed.'),
            repeat: length('From one check, stripe, slate … to the next alike; as usual for the pattern unless said.'),
          },
          'What is printed on the paper, drawn by the program.',
        ),
        'What is printed on the paper, drawn by the program.',
      ),
    },
    'A paper the maker owns: its width and height, or the outline of an offcut.',
    { anyOf: [{ required: ['width', 'height'] }, { required: ['outline'] }] },
  );
}

const priceSchema = group(
  {
    amount: describe(
      z
        .number({ error: 'a number of 0 or more' })
        .check(z.gte(0, { error: 'a number of 0 or more' }), z.lte(1e6, { error: 'a number up to a million' })),
      'How much.',
    ),
    currency: describe(
      z
        .string({ error: 'three capital letters such as "EUR"' })
        .check(z.regex(/^[A-Z]{3}$/, { error: 'three capital letters such as "EUR"' })),
      'Its three letters (ISO 4217).',
    ),
    sheets: optionalWhole(countLimits.pack, 'How many sheets that buys; 1 unless said otherwise.'),
  },
  'What it costs.',
);

/** How pieces are laid. */
export const layoutSchema: Schema = group(
  {
    cuts: optionalWords(
      ['free', 'strips'],
      'free: pieces lie as they save most; strips: straight cuts from edge to edge into strips as high as the panels, for a paper trimmer. free unless said otherwise.',
    ),
    prefer: optionalWords(
      ['sheets', 'cheapest'],
      'sheets: the papers of a layer are taken in their order, as few sheets as can be; cheapest: the sheets that cost least together. sheets unless said otherwise.',
    ),
    offcuts: optionalWords(
      ['first', 'as-listed'],
      'first: of the papers of a layer, offcuts are used before all others. as-listed unless said otherwise.',
    ),
  },
  'How the pieces are laid on the sheets.',
);

/** Where one piece lies. */
export const positionSchema = (lengthSchema: Schema): Schema =>
  group(
    {
      roof: textSchema('The id of its roof.'),
      layer: whole(countLimits.place, 'Which layer of the roof, from 0; a seat comes after the layers.'),
      piece: textSchema('The id of the piece, as the report names it.'),
      copy: optionalWhole(countLimits.place, 'Of which copy of the roof, from 0; 0 unless said otherwise.'),
      stock: textSchema('The id of its stock.'),
      sheet: optionalWhole(countLimits.place, 'Which sheet of that stock, from 0; 0 unless said otherwise.'),
      x: describeUse(lengthSchema, 'Where the lower left of the piece comes to, from the left edge of the sheet.'),
      y: describeUse(lengthSchema, 'Where the lower left of the piece comes to, from the lower edge of the sheet.'),
      rotation: optional(
        z.number({ error: 'a number of degrees' }),
        'Degrees, counter-clockwise about the lower left of the piece; 0 unless said otherwise.',
      ),
      locked: optional(
        z.boolean({ error: 'true or false' }),
        'true: the other pieces are laid round it. false unless said otherwise.',
      ),
      fingerprint: optional(
        textSchema('Letters and digits.'),
        'Of the outline of the piece when it was laid; a piece that has changed since is laid anew.',
      ),
    },
    'Where a piece lies.',
  );
