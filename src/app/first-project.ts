import millimetres from '../../shared/samples/chapel-hill.roofs.json?read-ahead';
import inches from '../../shared/samples/harbour-gate.roofs.json?read-ahead';
import type { Issue } from '../core/issue.ts';
import type { Project } from '../core/project/project.ts';
import type { JsonObject } from './state/file-path.ts';

export interface FirstProject {
  readonly file: JsonObject;
  readonly project: Project;
  readonly issues: readonly Issue[];
}

/** What lies on the table at first: a sample in the maker's own units, inches where they are the custom. */
export const firstProject = (language: string): FirstProject => (language === 'en-US' ? inches : millimetres);
