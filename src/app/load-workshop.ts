import { useSyncExternalStore } from 'react';
import { fail, type Result } from '../core/issue.ts';
import type { Project } from '../core/project/project.ts';
import type { JsonObject } from './state/file-path.ts';

type Workshop = typeof import('./workshop.ts');

let workshop: Workshop | null = null;
let asked: Promise<Workshop> | null = null;
const waiting = new Set<() => void>();

/** Nothing is read or made before the workshop is there: the page is drawn first, with what the file says as typed. */
export const loadWorkshop = (): Promise<Workshop> => {
  asked ??= import('./workshop.ts').then(({ layRoofs, produce, readProject, resolveProject }) => {
    workshop = { layRoofs, produce, readProject, resolveProject };
    for (const tell of waiting) tell();
    return workshop;
  });
  return asked;
};

export const workshopNow = (): Workshop | null => workshop;

const listen = (tell: () => void): (() => void) => {
  waiting.add(tell);
  return () => waiting.delete(tell);
};

/** The workshop, and another render when it comes. */
export const useWorkshop = (): Workshop | null => useSyncExternalStore(listen, workshopNow);

export const resolveTyped = (file: JsonObject): Result<{ readonly project: Project }> =>
  workshop?.resolveProject(file) ?? fail();

/** Makes a change that has to be read: at once where the workshop is there, otherwise as soon as it is. */
export const whenReadable = (change: () => void): void => {
  if (workshop !== null) change();
  else void loadWorkshop().then(change);
};
