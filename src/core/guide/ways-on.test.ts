import { describe, expect, it } from 'vitest';
import { type Production, produce } from '../pipeline.ts';
import { readProject } from '../project/read-project.ts';
import { makeGuide, stepsOf } from './guide.ts';
import { withWays } from './ways-on.ts';

type Json = Readonly<Record<string, unknown>>;

const made = (roof: Json): Production => {
  const reading = readProject(
    JSON.stringify({
      format: 'spirewright-project',
      version: 1,
      title: 'Ways on',
      units: 'mm',
      stock: [
        { id: 'paper', name: 'Paper', width: 400, height: 400, thickness: 0.25, direction: 'any' },
        { id: 'board', name: 'Board', width: 400, height: 400, thickness: 1.5, direction: 'any' },
      ],
      roofs: [{ id: 'watch', title: 'Watch house', ...roof }],
    }),
  );
  if (!reading.ok) throw new Error(reading.issues.map(({ message }) => message).join(' '));
  return produce(reading.value.project);
};

const cover = (on: string): Json => ({ as: 'cover', stock: 'paper', pieces: 'per-panel', flaps: { width: 6, on } });
const tightOf = ({ issues }: Production): Production['issues'] =>
  issues.filter(({ code }) => code === 'no-straight-way');

/** Its four gables and four roof panels close in a ring, the last corner between two that are on. */
const helm = made({
  kind: 'helm',
  shape: { width: 56, rise: 96 },
  layers: [cover('alternate')],
});

describe('a piece that meets something on every way to its place', () => {
  it('is named with the flap that goes under its neighbour, and where both are', () => {
    const notes = tightOf(withWays(helm));
    expect(notes.map(({ level, path, message }) => ({ level, path, message }))).toEqual([
      {
        level: 'note',
        path: 'roofs[0].layers[0]',
        message: 'South-west cannot come straight on: its flap C has to go under South-east, which goes on before it.',
      },
    ]);
    const { solid, net } = helm.roofs[0]?.made?.layers[0] ?? {};
    const [{ place } = {}] = notes;
    expect(place?.faces?.map((id) => solid?.faces.find((face) => face.id === id)?.title)).toEqual(['South-west']);
    expect(place?.edges).toEqual([solid?.edges[net?.seams.find(({ mark }) => mark === 'C')?.edge ?? -1]?.id]);
    expect(notes[0]?.remedy).toContain('Or join seam C with tape in place of a flap.');
  });

  it('goes straight on once that seam is taped, as the note says', () => {
    const [edge = ''] = tightOf(withWays(helm))[0]?.place?.edges ?? [];
    const layer = { ...cover('alternate'), seams: { [edge]: { join: 'tape' } } };
    expect(tightOf(withWays(made({ kind: 'helm', shape: { width: 56, rise: 96 }, layers: [layer] })))).toEqual([]);
  });

  it('is told of in the step in which it goes on, and nowhere else', () => {
    const steps = stepsOf(makeGuide(helm)).filter(({ sentences }) =>
      sentences.some((text) => /straight on/.test(text)),
    );
    expect(
      steps.map(({ work, pieces }) => ({
        work,
        names: pieces.map((p) => helm.roofs[0]?.made?.layers[0]?.net.pieces[p]?.title),
      })),
    ).toEqual([{ work: 'put-on', names: ['South-west'] }]);
    expect(steps[0]?.sentences).toContain(
      'Bend it gently, this flap pressed in, and let it spring back once it is under.',
    );
  });

  it('is not one that has a flap on the core beneath it, or beside the body', () => {
    const gable = made({
      kind: 'gable',
      shape: { width: 112, depth: 74, pitch: 40, ends: 'walls' },
      body: { width: 106, depth: 68, height: 66 },
      layers: [
        { as: 'board', stock: 'board', edges: 'butted' },
        { ...cover('alternate'), thickness: 'allow' },
      ],
    });
    const bellCast = made({
      kind: 'bell-cast-hip',
      shape: { rise: 38, flareRise: 12, flarePitch: 20, flareSteps: 4 },
      body: { width: 90, depth: 62, height: 64 },
      overhang: 7,
      layers: [cover('alternate')],
    });
    for (const production of [gable, bellCast]) {
      expect(production.roofs[0]?.made).toBeTruthy();
      expect(tightOf(withWays(production))).toEqual([]);
    }
  });
});
