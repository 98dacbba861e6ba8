import { describe, expect, it } from 'vitest';
import { findKind } from '../../core/roofs/catalogue.ts';
import { exampleSolid } from '../state/example.ts';
import { roofTop } from './roof-top.ts';

describe('what a roof comes to at its top', () => {
  it.each([
    ['pyramid', 'peak'],
    ['helm', 'peak'],
    ['gable', 'ridge'],
    ['hip', 'ridge'],
    ['gambrel', 'ridge'],
    ['shed', 'other'],
    ['frustum', 'other'],
  ])('%s: %s', (id, top) => {
    const solid = exampleSolid(findKind(id) as NonNullable<ReturnType<typeof findKind>>);
    expect(solid && roofTop(solid)).toBe(top);
  });
});
