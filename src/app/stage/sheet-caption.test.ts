import { describe, expect, it } from 'vitest';
import { captionOf } from './sheet-caption.ts';

describe('captionOf', () => {
  it('is one line where there is room, else two that are no wider than the sheet, or the bare number', () => {
    expect(captionOf('Slate print', 1, 140)).toEqual(['Slate print, sheet 2']);
    expect(captionOf('Slate print', 1, 139)).toEqual(['Slate print', 'sheet 2']);
    expect(captionOf('Slate print', 1, 60)).toEqual(['Slate p…', 'sheet 2']);
    expect(captionOf('Slate print', 1, 48)).toEqual(['2']);
    expect(captionOf('Slate print', 1, 240, 'plain side')).toEqual(['Slate print, sheet 2, plain side']);
    expect(captionOf('Slate print', 1, 139, 'plain side')).toEqual(['Slate print', 'sheet 2, plain side']);
  });
});
