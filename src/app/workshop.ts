/** All that makes roofs of what was typed: the reader of files, the kinds, the geometry. One chunk, beside the stage. */
export { layRoofs, produce } from '../core/pipeline.ts';
export { readProject, resolveProject } from '../core/project/read-project.ts';
