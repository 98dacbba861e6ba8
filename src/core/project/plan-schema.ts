import * as z from 'zod/mini';
import type { footprintKeys } from '../footprint/footprint.ts';
import { CORNER_FORMS, PITCH_FORMS } from '../units/units.ts';
import { type CountLimits, countLimits } from './limits.ts';
import { optional, type Schema } from './schema-parts.ts';

/** The keys of a measured plan, in a body and in the shape of the kinds that take one. */
export function planSchemas(length: Schema): {
  readonly footprint: Readonly<Record<(typeof footprintKeys)[number], Schema>>;
  readonly courts: Schema;
} {
  const point = z.tuple([length, length], { error: 'a corner as [x, y], two lengths' });
  const ring = listWithin(point, countLimits.corners, 'corners as [x, y]');
  return {
    footprint: {
      corners: optional(
        ring,
        'Measured plan: its corners counter-clockwise, as [x, y] from anywhere. The first side becomes the front; the plan is turned level and centred.',
      ),
      lengths: optional(
        listWithin(length, countLimits.corners, 'lengths'),
        'Measured plan: the lengths of its sides counter-clockwise, the front first; of three, or with a diagonal or angles.',
      ),
      diagonal: optional(length, 'Of four measured sides: from where the front begins (left) to the opposite corner.'),
      angles: optional(
        listWithin(
          z.union([z.number(), z.string()], { error: `an angle such as ${CORNER_FORMS}` }),
          { min: countLimits.corners.min - 1, max: countLimits.corners.max },
          'angles',
        ),
        'Of measured sides: the inside angle at the end of each, degrees; over 180 where a corner points inwards. The last may be left out.',
      ),
    },
    courts: optional(
      listWithin(ring, countLimits.courts, 'courts, each a list of corners'),
      'Open courts: the corners of each counter-clockwise, as [x, y] in the frame of the corners; without those from where the front begins, x along it.',
    ),
  };
}

/** A pitch or a gable for each side, by its id. */
export const sidePitchesSchema = (help: string): Schema =>
  optional(
    z.record(z.string(), z.union([z.number(), z.string()], { error: `"gable", or a pitch such as ${PITCH_FORMS}` }), {
      error: 'a group such as { "south": "8/12", "east": "gable" }',
    }),
    help,
  );

const listWithin = (entry: Schema, { min, max }: CountLimits, what: string): Schema => {
  const error = `a list of ${min} to ${max} ${what}`;
  return z.array(entry, { error }).check(z.minLength(min, { error }), z.maxLength(max, { error }));
};
