import { fail, type Issue, succeed } from '../issue.ts';
import { buildLeanTo } from './construct/lean-to.ts';
import { defineRoof } from './definition.ts';
import { halfApothem, halfRegular, halfWithEave, wallWidthParam } from './half-regular.ts';
import { heightParams, riseFrom } from './height.ts';
import { backParam } from './round.ts';

const USUAL = 8;

/** Half of a regular spire against a wall. */
export const leanToHalfSpire = defineRoof({
  id: 'lean-to-half-spire',
  title: 'Lean-to half spire',
  summary: 'Half of a spire of 4 to 24 sides that leans with its straight back against a wall.',
  alsoCalled: ['stair turret', 'bay', 'oriel', 'buttress'],
  params: [
    {
      key: 'sides',
      label: 'Sides',
      help: 'How many panels the whole spire would have; even numbers only.',
      quantity: 'count',
      min: 4,
      max: 24,
      default: USUAL,
    },
    wallWidthParam,
    ...heightParams,
    {
      key: 'cut',
      label: 'Cut',
      help: 'Where the wall cuts the spire: through the middles of two opposite sides, or through two opposite corners.',
      quantity: 'choice',
      default: 'flats',
      choices: [
        { value: 'flats', label: 'Through sides' },
        { value: 'corners', label: 'Through corners' },
      ],
    },
    backParam,
  ],
  hasVerge: false,
  outlineFromBody: (body, overhang, { sides = USUAL, cut = 'flats' }) =>
    sides % 2 === 1 ? fail(noLikeHalves(sides)) : halfWithEave(body, overhang, { sides, cut }),
  build: (values, body) => {
    const { sides = USUAL, cut = 'flats', width = 0, back = 'wall' } = values;
    if (sides % 2 === 1) return fail(noLikeHalves(sides));
    const half = { sides, cut, width };
    const rise = riseFrom(values, halfApothem(half));
    if (!rise.ok) return rise;
    return succeed(buildLeanTo({ eave: halfRegular(half), peakX: 0, rise: rise.value, back, body }));
  },
  examples: [
    { title: 'Stair turret', shape: { sides: 8, width: 46, rise: 68 } },
    { title: 'Tide gauge', shape: { sides: 12, width: 38, pitch: 62, cut: 'corners', back: 'open' } },
  ],
});

const noLikeHalves = (sides: number): Issue => ({
  level: 'error',
  code: 'no-like-halves',
  path: 'shape.sides',
  numbers: { sidesCount: sides },
  message: 'A spire of {sidesCount} sides has no two halves that are alike.',
  remedy: 'Take an even number of sides.',
});
