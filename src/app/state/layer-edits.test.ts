import { describe, expect, it } from 'vitest';
import { blankProject } from './blank-project.ts';
import { addBoard } from './file-edits.ts';
import { getAt, type JsonObject } from './file-path.ts';
import { addLayer, moveLayer } from './layer-edits.ts';
import { countHandJoins, forgetHandJoins, isChosenByHand, joinByHand } from './seam-edits.ts';
import { seatLike } from './seat-edits.ts';

const roof = getAt(blankProject('mm'), ['roofs', 0]) as JsonObject;
const kindsOf = (typed: JsonObject | undefined): readonly unknown[] =>
  ((typed?.['layers'] ?? []) as readonly JsonObject[]).map((layer) => layer['as']);

describe('layers', () => {
  it('lie from the inside out: board, shell, cover, whatever is added first', () => {
    const [shelled] = addLayer(roof, 'shell', ['paper']);
    const [boarded] = addLayer(shelled ?? {}, 'board', ['board']);
    expect(kindsOf(boarded)).toEqual(['board', 'shell', 'cover']);
    expect(getAt(boarded, ['layers', 0])).toEqual({ as: 'board', stock: 'board' });
  });

  it('move one place, and not beyond the ends', () => {
    const [shelled] = addLayer(roof, 'shell', ['paper']);
    expect(kindsOf(moveLayer(shelled ?? {}, 0, 1))).toEqual(['cover', 'shell']);
    expect(moveLayer(roof, 0, 1)).toBe(roof);
    expect(moveLayer(roof, 0, -1)).toBe(roof);
  });

  it('of board get a stock with an id of its own', () => {
    const first = addBoard(blankProject('in'), 'in');
    expect(first.id).toBe('board');
    expect(addBoard(first.file, 'in').id).toBe('board-2');
  });
});

describe('edges joined by hand', () => {
  it('are chosen one after the other, the last one last, and forgotten without a trace', () => {
    const one = joinByHand(roof, 0, 'hip-a', { join: 'fold' });
    const two = joinByHand(one, 0, 'hip-b', { join: 'flap', on: 'south' });
    const again = joinByHand(two, 0, 'hip-a', { join: 'tape' });
    expect(Object.keys(getAt(again, ['layers', 0, 'seams']) as JsonObject)).toEqual(['hip-b', 'hip-a']);
    expect(countHandJoins(again, 0)).toBe(2);
    expect(isChosenByHand(again, 0, 'hip-b')).toBe(true);
    const left = joinByHand(joinByHand(again, 0, 'hip-a', null), 0, 'hip-b', null);
    expect(left).toEqual(roof);
    expect(forgetHandJoins(again, 0)).toEqual(roof);
  });
});

describe('a seat', () => {
  it('keeps what was typed when it fits otherwise, and is cut from what the innermost layer is', () => {
    const [inside] = seatLike(roof, 'inside', 'mm');
    expect(inside?.['seat']).toEqual({ fits: 'inside', walls: '2mm', stock: 'paper' });
    const played = { ...inside, seat: { ...(inside?.['seat'] as JsonObject), play: '0.5mm' } };
    const [over, plated] = seatLike(played, 'outside', 'mm');
    expect(over?.['seat']).toEqual({ fits: 'outside', play: '0.5mm', stock: 'paper' });
    expect(plated?.['seat']).toMatchObject({ plate: true });
    expect(seatLike(played, 'none', 'mm')).toEqual([roof]);
  });
});
