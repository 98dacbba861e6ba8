import { describe, expect, it } from 'vitest';
import { ringArea } from '../geometry/polygon.ts';
import type { BoardEdges } from '../project/project.ts';
import { findKind } from '../roofs/catalogue.ts';
import { boardFacets, outerSides } from './board-body.ts';
import { buildBoard } from './build-board.ts';
import type { BoardCut, Panel, Piece } from './net.ts';
import { boardVolume } from './testing/board-volume.ts';

const piecesOf = (edges: BoardEdges): readonly Piece[] => {
  const solid = findKind('pyramid')?.build({ width: 60, depth: 60, rise: 40 }, null);
  const net = solid?.ok ? buildBoard(solid.value, { thickness: 3, edges }) : null;
  if (!net?.ok) throw new Error('a pyramid of board');
  return net.value.pieces;
};

describe('a pyramid of board, 60 by 60 mm, 40 mm high, of 3 mm board, by hand', () => {
  // Panels are 60 wide and 50 high, 1500 mm². Their hips, sqrt(3400) long, are cut 3 / 1.457738 = 2.057983 mm in (see the table of
  // boards), 120 mm² each; the eave 3 · 0.6 / 0.8 = 2.25 mm in, 135 mm². A triangle whose sides are moved in by d has the size
  // 1 - sum(d · side) / (2 · area) = 1 - 375 / 3000 = 0.875.
  const small = 0.875;

  it('with square edges is its outside times its thickness', () => {
    for (const piece of piecesOf('square')) {
      const { volume, open } = boardVolume(piece);
      expect(open).toEqual([]);
      expect(volume).toBeCloseTo(3 * 1500 * small * small, 6);
    }
  });

  it('with mitred edges is the stump of a pyramid from the whole panel to the small one', () => {
    for (const piece of piecesOf('mitred')) {
      const { volume, open } = boardVolume(piece);
      expect(open).toEqual([]);
      expect(volume).toBeCloseTo((3 / 3) * 1500 * (1 + small + small * small), 6);
    }
  });

  it('with butted edges is its outside times its thickness too, of two sizes', () => {
    const volumes = piecesOf('butted').map((piece) => {
      const { volume, open } = boardVolume(piece);
      expect(open).toEqual([]);
      expect(volume).toBeCloseTo(3 * ringArea(piece.board?.outer ?? []), 6);
      return volume.toFixed(6);
    });
    expect(new Set(volumes).size).toBe(2);
  });
});

describe('a side that only one surface has', () => {
  // A square of 20 with a corner cut off by 1: deeper down the short side has come to nothing.
  const polygon: Panel['polygon'] = [
    [0, 0],
    [20, 0],
    [20, 19],
    [19, 20],
    [0, 20],
  ];
  const edges: BoardCut['edges'] = [0, 3, 3, 0, 0].map((inner, edge) => ({
    edge,
    cut: 'mitred',
    outer: 0,
    inner: edge === 2 ? 0.5 : inner,
    bevel: 0,
    mitre: null,
  }));
  const inner: BoardCut['inner'] = [
    [0, 0],
    [17, 0],
    [17, 20],
    [0, 20],
  ];
  const board: BoardCut = { thickness: 2, outer: polygon, inner, edges };

  it('narrows to a corner of the other, and the body stays closed', () => {
    expect(outerSides({ polygon }, board).map(({ side }) => side)).toEqual([0, 1, 2, 3, 4]);
    expect(boardFacets({ polygon }, board)).toHaveLength(9);
    expect(boardVolume({ panels: [{ face: 0, polygon }], board }).open).toEqual([]);
  });
});
