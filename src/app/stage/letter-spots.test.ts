import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rectangularBody } from '../../core/footprint/rectangular-body.ts';
import { layerSolids } from '../../core/layers/layer-solids.ts';
import { buildNet } from '../../core/net/build-net.ts';
import { produce } from '../../core/pipeline.ts';
import { readProject } from '../../core/project/read-project.ts';
import { findKind } from '../../core/roofs/catalogue.ts';
import { letterSpots } from './letter-spots.ts';
import { markPlace } from './net-parts.ts';

const roofs = (name: string) => {
  const read = readProject(
    readFileSync(new URL(`../../../shared/samples/${name}.roofs.json`, import.meta.url), 'utf8'),
  );
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return produce(read.value.project).roofs.flatMap(({ made, spec }) =>
    (made?.layers ?? []).map(({ net, solid }) => ({ kind: spec.kind, net, solid })),
  );
};

describe('match marks on the table', () => {
  it.each(['harbour-row', 'harbour-gate'])('of one panel never lie on each other: %s', (name) => {
    for (const { kind, net, solid } of roofs(name)) {
      // A line of text as high as on a table on which the whole broach spire lies.
      const spots = letterSpots(net, solid, 9);
      expect(spots.length, kind).toBeGreaterThan(net.seams.length);
      spots.forEach((a, i) => {
        for (const b of spots.slice(i + 1)) {
          if (a.piece !== b.piece || a.panel !== b.panel) continue;
          const [x, y] = [Math.abs(a.at[0] - b.at[0]), Math.abs(a.at[1] - b.at[1])];
          expect(x >= 0.6 * a.height || y >= 0.7 * a.height, `${kind}: ${a.mark} ${b.mark}`).toBe(true);
        }
      });
    }
  });

  it('stand at the middle of their seams where there is room, on both sides', () => {
    const [gate] = roofs('harbour-gate');
    if (gate === undefined) throw new Error('the gate has no layer');
    const spots = letterSpots(gate.net, gate.solid, 3);
    expect(spots).toHaveLength(2 * gate.net.seams.length);
    const [seam] = gate.net.seams;
    const side = seam?.sides[0];
    const polygon = side && gate.net.pieces[side.piece]?.panels[side.panel]?.polygon;
    const spot = spots.find(({ mark, piece }) => mark === seam?.mark && piece === side?.piece);
    expect(spot?.at).toEqual(markPlace(side?.ends as never, polygon ?? [], 3 * 0.72));
    expect(spot?.height).toBe(3);
  });

  it('of a wall that ends behind the board under a cover are not on the cover', () => {
    const built = findKind('gable')?.build({ width: 60, depth: 56, rise: 21 }, rectangularBody(50, 48, 30));
    if (!built?.ok) throw new Error('no gable');
    const board = { as: 'board', thickness: 2 } as const;
    const [, cover] = layerSolids(built.value, [board, { as: 'cover', thickness: 0.3 }], null);
    if (!cover?.ok) throw new Error('no cover');
    const flaps = { width: 5, on: 'alternate', clearance: 0.5, least: 2 } as const;
    const { net } = buildNet(cover.value, { pieces: 'per-panel', flaps });
    const behind = new Set(net.seams.filter(({ edge }) => cover.value.edges[edge]?.isBehind).map(({ mark }) => mark));
    expect(behind.size).toBeGreaterThan(0);
    const panels = letterSpots(net, cover.value, 3).flatMap(({ mark, piece, panel }) =>
      behind.has(mark) ? [cover.value.faces[net.pieces[piece]?.panels[panel]?.face ?? -1]?.part] : [],
    );
    expect(new Set(panels)).toEqual(new Set(['wall']));
  });
});
