import type { GuideBlock } from './guide-data.ts';

/** What lies ready, whatever is made. */
export const tools: readonly string[] = [
  'A sharp knife with fresh blades, and a cutting mat',
  'A metal ruler',
  'A scoring tool: a bone folder or an empty ball pen',
  'Glue for paper, and low-tack tape',
];

/** Where a tool can hurt. */
export const cautions: readonly GuideBlock[] = [
  {
    kind: 'caution',
    about: 'Blades',
    text: 'Cut along a metal ruler, away from the hand that holds it, in several light passes. Change a blunt blade: it slips. Cap the blade when you put it down.',
  },
  {
    kind: 'caution',
    about: 'Glue',
    text: 'Hot glue burns: keep your fingers off the tip and off fresh glue. Try any glue on a scrap first.',
  },
  {
    kind: 'caution',
    about: 'Sprays',
    text: 'Use spray glue, sealer and paint outdoors or by an open window, away from flames.',
  },
  {
    kind: 'caution',
    about: 'Children',
    text: 'An adult does the cutting and the hot glue, or stands by.',
  },
];
