import { paperSizes } from '../../core/project/paper-sizes.ts';
import { type PrintPattern, printPatterns, prints } from '../../core/project/prints.ts';
import { isSameLength } from '../../core/tolerance.ts';
import { formatLength, parseLength, type Ruler, type Units } from '../../core/units/units.ts';
import { bench } from '../bench.ts';
import type { FieldSpec } from '../fields/field-spec.ts';
import { exactText } from '../fields/typed-text.ts';
import { type FilePath, getAt, type Json, type JsonObject, setAt } from '../state/file-path.ts';
import { refuseText } from '../state/refuse-text.ts';
import { priceText, readPrice } from './price-text.ts';
import { printPattern } from './stock-picture.ts';
import { soldAs, typicalThicknesses } from './typical-thickness.ts';

/** Everything of a paper that is typed or chosen. */

interface Style {
  readonly units: Units;
  readonly ruler: Ruler;
}

const pathIn =
  (index: number) =>
  (...keys: FilePath): FilePath => ['stock', index, ...keys];

const mmOf = (value: Json | undefined): number => {
  const read = typeof value === 'number' || typeof value === 'string' ? parseLength(value) : null;
  return read?.ok ? read.value : Number.NaN;
};

/** The standard size that a paper has, and whether it lies across. */
const standardOf = (paper: Json | undefined): string => {
  const [width, height] = [mmOf(getAt(paper, ['width'])), mmOf(getAt(paper, ['height']))];
  const found = paperSizes.find((size) => isSameLength(size.width, width) && isSameLength(size.height, height));
  const across = paperSizes.find((size) => isSameLength(size.height, width) && isSameLength(size.width, height));
  return found?.name ?? (across ? `${across.name} across` : '');
};

const offered = paperSizes.filter(
  ({ width, height }) => Math.max(width, height) > 140 && Math.max(width, height) < 900,
);

const giveSize = (index: number, name: string): boolean => {
  const size = paperSizes.find((one) => name === one.name || name === `${one.name} across`);
  if (size === undefined) return true;
  const isAcross = name !== size.name;
  const text = (mm: number): string => exactText(mm, size.series.startsWith('ISO') ? 'mm' : 'in');
  const [width, height] = isAcross ? [size.height, size.width] : [size.width, size.height];
  bench.edit((file) => {
    const at = pathIn(index);
    const sized = setAt(setAt(file, at('width'), text(width)), at('height'), text(height));
    return setAt(sized, at('outline'), undefined) as JsonObject;
  });
  return true;
};

/** Size and number; an offcut has its size from its outline. */
export const sheetFields = (index: number, isOffcut: boolean): readonly FieldSpec[] => {
  const at = pathIn(index);
  const size: readonly FieldSpec[] = [
    {
      key: 'size',
      label: 'Size',
      path: at('size'),
      quantity: 'choice',
      fallback: '',
      choices: [
        { value: '', label: 'As typed' },
        ...offered.flatMap(({ name, width, height }) => [
          { value: name, label: name },
          ...(isSameLength(width, height) ? [] : [{ value: `${name} across`, label: `${name}, lying across` }]),
        ]),
      ],
      read: (file) => standardOf(getAt(file, at())),
      write: (value) => giveSize(index, String(value ?? '')),
    },
    {
      key: 'width',
      label: 'Width',
      help: 'Left to right as the print stands upright.',
      path: at('width'),
      quantity: 'length',
    },
    {
      key: 'height',
      label: 'Height',
      help: 'Bottom to top as the print stands upright.',
      path: at('height'),
      quantity: 'length',
    },
  ];
  return [
    { key: 'name', label: 'Name', path: at('name'), quantity: 'text' },
    ...(isOffcut ? [] : size),
    {
      key: 'count',
      label: 'Sheets owned',
      help: isOffcut ? 'Empty: this one.' : 'Empty: as many as needed.',
      path: at('count'),
      quantity: 'count',
      fallback: isOffcut ? '1' : 'any number',
      canLeaveOut: true,
    },
    {
      key: 'soldAs',
      label: 'Sold as',
      help: 'Gives the usual thickness; what you measure yourself counts more.',
      path: at('soldAs'),
      quantity: 'choice',
      fallback: '',
      choices: [
        { value: '', label: 'Not listed' },
        ...typicalThicknesses.map(({ title, thickness }) => ({ value: thickness, label: title })),
      ],
      read: (file) => soldAs(getAt(file, at('thickness')))?.thickness ?? '',
      write: (value, gesture) => value === '' || bench.setField(at('thickness'), value, gesture),
    },
    { key: 'thickness', label: 'Thickness', path: at('thickness'), quantity: 'length', fallback: 'none' },
  ];
};

/** What is printed on it: the value of its choice, beside the patterns. */
export const PICTURE = 'picture';

export const printFields = (index: number, guessed: PrintPattern, { units, ruler }: Style): readonly FieldSpec[] => {
  const at = pathIn(index);
  const patternOf = (file: Json): string =>
    getAt(file, at('picture')) === undefined ? String(getAt(file, at('print', 'pattern')) ?? '') : PICTURE;
  return [
    {
      key: 'pattern',
      label: 'Printed with',
      path: at('print', 'pattern'),
      quantity: 'choice',
      fallback: '',
      choices: [
        { value: '', label: `As named: ${prints[guessed].title.toLowerCase()}` },
        ...printPatterns.map((pattern) => ({ value: pattern, label: prints[pattern].title })),
        { value: PICTURE, label: 'A picture' },
      ],
      read: patternOf,
      write: (value) => {
        if (value !== PICTURE) printPattern(index, value === '' ? undefined : String(value));
        return true;
      },
    },
    {
      key: 'direction',
      label: 'Turned',
      help: 'Whether the print has an up.',
      path: at('direction'),
      quantity: 'choice',
      fallback: 'one-way',
      choices: [
        { value: 'one-way', label: 'Never: it has an up' },
        { value: 'two-way', label: 'Half a turn is fine' },
        { value: 'any', label: 'Any way' },
      ],
    },
    {
      key: 'repeat',
      label: 'One repeat',
      help: 'From one check, stripe or slate to the next alike.',
      path: at('print', 'repeat'),
      quantity: 'length',
      fallback: formatLength(prints[guessed].repeat, { units, ruler }),
      canLeaveOut: true,
    },
  ];
};

export const pictureField = (index: number): FieldSpec => ({
  key: 'pictureWidth',
  label: 'Shows',
  help: 'How much paper the picture shows from left to right.',
  path: pathIn(index)('picture', 'width'),
  quantity: 'length',
});

const wrongPrice = (path: FilePath, text: string): false =>
  refuseText(
    path,
    text,
    `“${text}” says no price.`,
    'Write an amount, the three letters of the currency and for how many sheets: 3.50 EUR for 8.',
  );

/** What is kept free on it, and what it costs. */
export const edgeFields = (index: number): readonly FieldSpec[] => {
  const at = pathIn(index);
  return [
    {
      key: 'margin',
      label: 'Margin',
      help: 'Along the edges, not to be used.',
      path: at('margin'),
      quantity: 'length',
      fallback: 'none',
      canLeaveOut: true,
    },
    {
      key: 'gap',
      label: 'Gap',
      help: 'Between pieces; without one they are cut along shared lines.',
      path: at('gap'),
      quantity: 'length',
      fallback: 'none',
      canLeaveOut: true,
    },
    {
      key: 'price',
      label: 'Price',
      help: 'As 3.50 EUR for 8.',
      path: at('price'),
      quantity: 'text',
      fallback: '3.50 EUR for 8',
      canLeaveOut: true,
      read: (file) => priceText(getAt(file, at('price'))),
      write: (value, gesture) => {
        if (value === undefined) return bench.setField(at('price'), undefined, gesture);
        const price = readPrice(String(value));
        return price === null ? wrongPrice(at('price'), String(value)) : bench.setField(at('price'), price, gesture);
      },
    },
  ];
};
