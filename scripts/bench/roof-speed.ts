import { BufferGeometry, IcosahedronGeometry } from 'three';
import { poseNet } from '../../src/core/fold/pose.ts';
import { makeRoof } from '../../src/core/make-roof.ts';
import { arrangeOnTable } from '../../src/core/net/arrange.ts';
import type { Project } from '../../src/core/project/project.ts';
import { readProject } from '../../src/core/project/read-project.ts';
import { sampleFiles } from '../samples.ts';
import { timeInTurn } from './median.ts';

export interface RoofSpeed {
  readonly title: string;
  readonly panels: number;
  /** Of one parameter change, until panels and flaps lie where they are to be drawn. */
  readonly ms: number;
  /** The same as a multiple of the yardstick. */
  readonly ratio: number;
}

/** A pose in the middle of the work: flaps folded, pieces on their way. */
const MIDWAY = 0.7;

/** Everything a typed length sets off for one roof: solid, net, flaps, fit and fold pose. */
const changeRoof = (project: Project, index: number): void => {
  const spec = project.roofs[index];
  const { made } = spec ? makeRoof(spec, project, index) : { made: null };
  if (made === null) throw new Error(`sample roof ${index} of ${project.title} cannot be made`);
  const spots = arrangeOnTable(made.layers, spec?.body ?? null);
  made.layers.forEach(({ solid, net }, l) => {
    poseNet(solid, net, MIDWAY, { rest: made.fit.rest, spots: spots[l] ?? [] });
  });
};

/**
 * Time of a parameter change for every sample roof, beside the yardstick: three's `computeVertexNormals` on an
 * icosahedron of detail 4, taken in turn with them.
 */
export function roofSpeeds(): { readonly yardstick: number; readonly roofs: readonly RoofSpeed[] } {
  const normals = new IcosahedronGeometry(1, 4);
  const yardstick = (): void => BufferGeometry.prototype.computeVertexNormals.call(normals);
  const changes = sampleFiles().flatMap(({ text }) => {
    const reading = readProject(text);
    if (!reading.ok) throw new Error(reading.issues.map(({ message }) => message).join(' '));
    const { project } = reading.value;
    return project.roofs.map((spec, index) => {
      const panels = makeRoof(spec, project, index).made?.solid.faces.length ?? 0;
      return { title: `${project.title}: ${spec.title}`, panels, run: () => changeRoof(project, index) };
    });
  });
  const [base = Number.NaN, ...times] = timeInTurn([yardstick, ...changes.map(({ run }) => run)], 15, 2, 5);
  return {
    yardstick: base,
    roofs: changes.map(({ title, panels }, index) => {
      const ms = times[index] ?? Number.NaN;
      return { title, panels, ms, ratio: ms / base };
    }),
  };
}
