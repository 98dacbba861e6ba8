import { describe, expect, it } from 'vitest';
import type { Param } from '../../core/roofs/definition.ts';
import { isOptional, leftOutWords } from './left-out.ts';
import { mayBeLeftOut, shapeField } from './shape-fields.ts';
import type { RoofAtHand } from './use-roof.ts';

const endPitch = {
  key: 'endPitch',
  label: 'End pitch',
  help: 'How steep the two ends are; as the others unless said otherwise.',
  quantity: 'pitch',
  min: 0.1,
  max: 1.5,
  optional: true,
} satisfies Param;

const hand = { at: (...rest: string[]) => rest, context: { units: 'in' } } as unknown as RoofAtHand;

describe('a parameter that the kind derives where it is left out', () => {
  it('has an empty box with words for what then counts', () => {
    expect(isOptional(endPitch)).toBe(true);
    expect(mayBeLeftOut(endPitch)).toBe(true);
    const { fallback, canLeaveOut, path } = shapeField(endPitch, hand);
    expect({ fallback, canLeaveOut, path }).toEqual({
      fallback: 'as the others',
      canLeaveOut: true,
      path: ['shape', 'endPitch'],
    });
  });

  it.each([
    ['How far out; the same as at the eave.', 'the same as at the eave'],
    ['How wide the top is, as the body when left out.', 'as the body'],
    ['From the eave to the break.', 'follows'],
    ['Twice as high as the gables.', 'follows'],
    ['How long; as long as the ridge and the two hips beside it together.', 'follows'],
  ])('%s', (help, words) => {
    expect(leftOutWords(help)).toBe(words);
  });

  it('is none of those that are needed, chosen from a list or one of a group', () => {
    const { optional: _, ...needed } = endPitch as Param & { optional?: boolean };
    expect(mayBeLeftOut(needed as Param)).toBe(false);
    expect(mayBeLeftOut({ ...needed, oneOf: 'height', default: 1 } as Param)).toBe(false);
    expect(mayBeLeftOut({ ...needed, quantity: 'choice', choices: [], default: 'a' } as Param)).toBe(false);
  });
});
