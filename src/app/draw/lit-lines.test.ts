import { expect, it } from 'vitest';
import { makeRoof } from '../../core/make-roof.ts';
import { resolveProject } from '../../core/project/read-project.ts';
import { edgeTitle } from '../../core/solid/edge-title.ts';
import { peakLines, seamLines, standLines } from './fit-lines.ts';
import { joinWords } from './join-words.ts';
import { litParts, nearestEdge, panelSides } from './lit-lines.ts';

const makeGate = () => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Gate',
    units: 'mm',
    stock: [{ id: 'slate', width: 300, height: 300 }],
    roofs: [
      {
        id: 'gate',
        kind: 'pyramid',
        shape: { rise: 40 },
        body: { width: 50, depth: 50, height: 60 },
        overhang: 5,
        neighbours: [{ side: 'east', gap: 12, height: 90 }],
        layers: [{ as: 'cover', stock: 'slate' }],
      },
    ],
  });
  if (!read.ok) throw new Error(read.issues[0]?.message);
  const { project } = read.value;
  const spec = project.roofs[0];
  const made = spec === undefined ? null : makeRoof(spec, project, 0).made;
  if (made === null) throw new Error('the gate is not made');
  return made;
};

const style = { units: 'mm', ruler: '1mm' } as const;

it('finds an edge on both of its panels, and the panel of a face', () => {
  const { solid, layers } = makeGate();
  const net = layers[0]?.net;
  if (net === undefined) throw new Error('no net');
  const hip = solid.edges.find(({ role }) => role === 'hip');
  const { sides, panels } = litParts(solid, net, { edges: [hip?.id ?? ''], faces: [solid.faces[0]?.id ?? ''] });
  expect(sides.map(({ piece }) => piece)).toHaveLength(2);
  expect(new Set(sides.map(({ piece }) => piece)).size).toBe(2);
  expect(panels).toHaveLength(1);
});

it('means the nearest edge within reach, on the panel that was pointed at', () => {
  const { solid, layers } = makeGate();
  const net = layers[0]?.net;
  if (net === undefined) throw new Error('no net');
  const sides = panelSides(solid, net);
  const side = sides.find(({ piece }) => piece === 1);
  const [[x, y], [u, v]] = side?.ends ?? [
    [0, 0],
    [0, 0],
  ];
  expect(nearestEdge(sides, { piece: 1 }, [(x + u) / 2, (y + v) / 2], 1)).toBe(side?.edge);
  expect(nearestEdge(sides, { piece: 1 }, [-50, -50], 5)).toBeNull();
});

it('says how an edge is joined and what it is called', () => {
  const layer = makeGate().layers[0];
  if (layer === undefined) throw new Error('no layer');
  const hip = layer.solid.edges.findIndex(({ role }) => role === 'hip');
  const eave = layer.solid.edges.findIndex(({ role }) => role === 'eave');
  expect(edgeTitle(layer.solid, hip)).toMatch(/^Hip, \w+ to \w+$/);
  expect(joinWords(layer, hip)).toMatch(/^seam [A-D], flap on \w+$/);
  expect(joinWords(layer, eave)).toBe('open edge');
});

it('tells how the roof sits and closes, each line with its place', () => {
  const made = makeGate();
  const stands = standLines(made, style);
  expect(stands.map(({ text }) => text)).toEqual([
    'Stands out 5 mm on every side.',
    expect.stringMatching(/^Every eave level, 5\d(\.\d+)? mm over the table\.$/),
    '7 mm clear of the house to the east.',
  ]);
  expect(stands[0]?.place?.edges).toHaveLength(4);
  expect(stands[2]?.place?.edges?.length).toBeGreaterThan(0);
  const seams = seamLines(made, style);
  expect(seams).toHaveLength(4);
  expect(seams[0]?.text).toMatch(/^A · Hip, \w+ to \w+: 58(\.\d+)? mm/);
  // Four alike close whatever they are rounded to.
  expect(peakLines(made, style)).toEqual([]);
});
