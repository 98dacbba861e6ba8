import { quarterTurns, type Vec3 } from '../geometry/vector.ts';
import { fail, type Issue, succeed } from '../issue.ts';
import { buildSolid, type FaceDraft } from '../solid/build-solid.ts';
import { titleCase } from '../solid/compass.ts';
import { addFascia } from './construct/fascia.ts';
import { defineRoof } from './definition.ts';
import { MOST_SHARE } from './height.ts';
import { rectangleParams, rectangleWithEave } from './outline.ts';

const winds = ['south', 'east', 'north', 'west'] as const;

/** A level deck with a border that stands up or hangs down. */
export const flat = defineRoof({
  id: 'flat',
  title: 'Flat',
  summary: 'A level deck with a parapet standing up round it, or a fascia hanging down.',
  alsoCalled: ['deck', 'level', 'terrace', 'parapet'],
  params: [
    ...rectangleParams,
    {
      key: 'border',
      label: 'Border',
      help: 'What goes round the deck.',
      quantity: 'choice',
      default: 'parapet',
      choices: [
        { value: 'parapet', label: 'Parapet' },
        { value: 'fascia', label: 'Fascia' },
      ],
    },
    {
      key: 'borderHeight',
      label: 'Border height',
      help: 'How far the parapet stands up, or the fascia hangs down.',
      quantity: 'length',
      min: 1,
      max: 2000,
      default: 8,
    },
    {
      key: 'parapetWidth',
      label: 'Parapet width',
      help: 'Across the top of a parapet, from its outside to the deck.',
      quantity: 'length',
      min: 0.5,
      max: 500,
      default: 3,
    },
  ],
  hasVerge: false,
  outlineFromBody: rectangleWithEave,
  build: ({ width = 0, depth = 0, border, borderHeight = 0, parapetWidth = 0 }) => {
    const inset = border === 'fascia' ? 0 : parapetWidth;
    const most = (MOST_SHARE * Math.min(width, depth)) / 2;
    if (inset > most) return fail(parapetTooWide(inset, most));
    /** South-west corner first, so that the side from corner i on faces wind i. */
    const corner = (i: number, inward: number, z: number): Vec3 => {
      const [x, y] = quarterTurns([-1, -1], i);
      return [x * (width / 2 - inward), y * (depth / 2 - inward), z];
    };
    const deck: FaceDraft = {
      id: 'deck',
      title: 'Deck',
      part: 'slope',
      side: 'deck',
      points: winds.map((_, i) => corner(i, inset, 0)),
    };
    if (border === 'fascia') return succeed(addFascia(buildSolid([deck]), borderHeight));
    return succeed(
      buildSolid([
        deck,
        ...winds.flatMap((wind, i) => {
          const [from, to] = [i, i + 1];
          const place = (inward: number, z: number): readonly [Vec3, Vec3] => [
            corner(from, inward, z),
            corner(to, inward, z),
          ];
          const [foot, top] = [place(0, 0), place(0, borderHeight)];
          const [rim, gutter] = [place(inset, borderHeight), place(inset, 0)];
          const band = (name: string, low: readonly [Vec3, Vec3], high: readonly [Vec3, Vec3]): FaceDraft => ({
            id: `${wind}-${name}`,
            title: `${titleCase(wind)} parapet, ${name}`,
            part: 'wall',
            side: wind,
            points: [...low, high[1], high[0]],
          });
          return [band('outside', foot, top), band('coping', top, rim), band('inside', rim, gutter)];
        }),
      ]),
    );
  },
  examples: [
    { title: 'Fish dock', shape: { width: 132, depth: 78, border: 'parapet', borderHeight: 7, parapetWidth: 3 } },
    { title: 'Harbour kiosk', shape: { width: 58, depth: 46, border: 'fascia', borderHeight: 5 } },
  ],
});

const parapetTooWide = (found: number, most: number): Issue => ({
  level: 'error',
  code: 'parapet-too-wide',
  path: 'shape.parapetWidth',
  numbers: { found, most },
  message: 'Parapets {found} wide leave no deck between them.',
  remedy: 'Keep them at {most} or under.',
});
