import { describe, expect, it } from 'vitest';
import { resolveProject } from '../core/project/read-project.ts';
import { firstProject } from './first-project.ts';

describe('the project that lies on the table at first', () => {
  it.each([
    ['en-US', 'in'],
    ['en-GB', 'mm'],
    ['de', 'mm'],
  ])('for %s says what the reader of files says of it', (language, units) => {
    const { file, project, issues } = firstProject(language);
    expect(file['units']).toBe(units);
    const read = resolveProject(file);
    expect(read.ok && read.value.project).toStrictEqual(project);
    expect(read.issues).toStrictEqual(issues);
  });
});
