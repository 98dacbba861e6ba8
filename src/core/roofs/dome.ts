import type { Vec2 } from '../geometry/vector.ts';
import { succeed } from '../issue.ts';
import { type Arc, roundDeviation, sampleProfile } from './construct/profile.ts';
import { raiseRegular } from './construct/raise-regular.ts';
import { bandsParam, roundNote } from './curve-notes.ts';
import { defineRoof } from './definition.ts';
import { riseParam } from './height.ts';
import { apothemFrom, regularParams, regularWithEave, sidesParam } from './regular.ts';

/** Gores that bend in along a circular arc, each a strip of small folds. */
export const dome = defineRoof({
  id: 'dome',
  title: 'Dome',
  summary:
    'Gores on a regular plan of 3 to 24 sides, folded along a round arc: a half ball, a flatter cap or a pointed dome.',
  alsoCalled: ['cupola', 'spherical', 'hemisphere', 'domical vault', 'round'],
  params: [
    { ...sidesParam, label: 'Gores', help: 'How many like strips go round.', default: 12 },
    ...regularParams,
    {
      ...riseParam,
      help: 'From the eave straight up to the peak; as a half ball unless said otherwise.',
      optional: true,
    },
    bandsParam(6),
  ],
  hasVerge: false,
  outlineFromBody: (body, overhang, { sides = 12 }) => regularWithEave(body, overhang, { sides }),
  build: (values) => {
    const { sides = 12, bands = 6 } = values;
    const apothem = apothemFrom(values, sides);
    if (!apothem.ok) return apothem;
    const { rise = apothem.value } = values;
    const profile = sampleProfile([apothem.value, 0], [domeArc(apothem.value, rise)], bands);
    const points: Vec2[] = [...profile.points.slice(0, -1), [0, rise]];
    return succeed(raiseRegular(sides, points), [roundNote(roundDeviation(profile, sides), profile.deviation)]);
  },
  examples: [
    { title: 'Observatory', shape: { sides: 12, acrossFlats: 72, bands: 6 } },
    { title: 'Bandstand', shape: { sides: 8, acrossFlats: 84, rise: 22, bands: 4 } },
    { title: 'Pointed lantern', shape: { sides: 8, side: 17, rise: 34, bands: 5 } },
  ],
});

/**
 * The arc from the eave to a peak over the middle. Between a circular arc and its chord the angle is the same at both ends, so
 * with the chord at a pitch c one that begins at s ends at 2c - s. A cap lower than a half ball ends level and begins at 2c: its
 * radius is (run² + rise²) / (2 rise). A higher one begins upright and ends in a point: its radius is (run² + rise²) / (2 run).
 */
function domeArc(run: number, rise: number): Arc {
  const pitch = Math.atan2(rise, run);
  const from = Math.min(Math.PI / 2, 2 * pitch);
  return { from, to: 2 * pitch - from, chord: Math.hypot(run, rise) };
}
