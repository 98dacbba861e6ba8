import { describe, expect, it } from 'vitest';
import { fail, succeed } from '../../core/issue.ts';
import type { Project } from '../../core/project/project.ts';
import { createBench } from './bench-store.ts';
import { getAt, type JsonObject } from './file-path.ts';
import type { Resolve } from './reading.ts';

const first: JsonObject = { title: 'Harbour', roofs: [{ id: 'gate', shape: { rise: '2in' } }, { id: 'loft' }] };
const rise = ['roofs', 0, 'shape', 'rise'] as const;

/** Takes every rise that ends in `in`. */
const resolve: Resolve = (file) => {
  const text = String(getAt(file, rise));
  return text.endsWith('in')
    ? succeed({ project: {} as Project })
    : fail({ level: 'error', code: 'not-a-length', path: 'roofs[0].shape.rise', message: `“${text}” is no length.` });
};

const make = () => {
  const bench = createBench(first, resolve);
  return { ...bench, riseNow: () => getAt(bench.store.getState().file, rise) };
};

describe('bench state', () => {
  it('takes a length as typed and gives it back on undo and redo', () => {
    const bench = make();
    expect(bench.setField(rise, '3 1/4in')).toBe(true);
    expect(bench.riseNow()).toBe('3 1/4in');
    bench.undo();
    expect(bench.riseNow()).toBe('2in');
    bench.redo();
    expect(bench.riseNow()).toBe('3 1/4in');
  });

  it('keeps refused text out of the file, with the reason beside it', () => {
    const bench = make();
    expect(bench.setField(rise, 'tall')).toBe(false);
    expect(bench.store.getState().file).toBe(first);
    expect(bench.store.getState().drafts['roofs[0].shape.rise']?.text).toBe('tall');
    expect(bench.store.temporal.getState().pastStates).toHaveLength(0);
    bench.setField(rise, '4in');
    expect(bench.store.getState().drafts).toEqual({});
  });

  it('makes one undo step of one gesture, and another of the next', () => {
    const bench = make();
    for (const text of ['3in', '4in', '5in']) bench.setField(rise, text, 'step');
    bench.endGesture();
    for (const text of ['6in', '7in']) bench.setField(rise, text, 'step');
    bench.undo();
    expect(bench.riseNow()).toBe('5in');
    bench.undo();
    expect(bench.riseNow()).toBe('2in');
  });

  it('forgets an edit in progress, and only that', () => {
    const bench = make();
    bench.setField(rise, '3in');
    for (const text of ['4in', '5in']) bench.setField(rise, text, 'drag');
    bench.forget('another');
    expect(bench.riseNow()).toBe('5in');
    bench.forget('drag');
    expect(bench.riseNow()).toBe('3in');
    expect(bench.store.temporal.getState().pastStates).toHaveLength(1);
    bench.undo();
    expect(bench.riseNow()).toBe('2in');
    bench.setField(rise, '6in', 'drag');
    bench.endGesture();
    bench.forget('drag');
    expect(bench.riseNow()).toBe('6in');
  });

  it('does not record a change of place or of the fold', () => {
    const bench = make();
    bench.store.setState({ place: 'paper', t: 0.3 });
    expect(bench.store.temporal.getState().pastStates).toHaveLength(0);
  });

  it('selects a roof that exists', () => {
    const bench = make();
    bench.select(7);
    expect(bench.store.getState().selected).toBe(1);
    bench.edit((file) => ({ ...file, roofs: [{ id: 'only' }] }));
    expect(bench.store.getState().selected).toBe(0);
  });
});
