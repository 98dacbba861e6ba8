import { describe, expect, it } from 'vitest';
import { describePath } from './describe-path.ts';

const file = { roofs: [{ title: 'Boat yard' }] };

describe('where an issue is, in a maker’s words', () => {
  it.each([
    ['', 'The project'],
    ['roofs[0].shape.rise', 'Boat yard, Shape, Rise'],
    ['roofs[1].layers[0]', 'Roof 2, Layer 1'],
    ['roofs[0].body.corners[2]', 'Boat yard, Body, Corner 3'],
    ['roofs[0].body.corners[2][1]', 'Boat yard, Body, Corner 3, to the back'],
    ['roofs[0].body.courts[0][3][0]', 'Boat yard, Body, Court 1, Corner 4, to the right'],
    ['roofs[0].body.lengths[1]', 'Boat yard, Body, Length 2'],
  ])('%s: %s', (path, words) => {
    expect(describePath(path, file)).toBe(words);
  });
});
