import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, inject, it } from 'vitest';
import { layoutJob } from '../../src/core/lay-project.ts';
import type { LayoutJob } from '../../src/core/layout/job.ts';
import type { Layout } from '../../src/core/layout/layout.ts';
import { bestLayout } from '../../src/core/layout/search-layout.ts';
import { produce } from '../../src/core/pipeline.ts';
import { resolveProject } from '../../src/core/project/read-project.ts';
import { openPage, sharedBrowser } from './harness.ts';

const assets = fileURLToPath(new URL('../../dist/assets', import.meta.url));
const worker = readdirSync(assets).find((name) => /^layout\.worker.*\.js$/.test(name));

/** Six panels of two towers, slanted by angles that no float holds exactly, on paper of every direction. */
const jobOf = (direction: string, cuts: string): LayoutJob => {
  const read = resolveProject({
    format: 'spirewright-project',
    version: 1,
    title: 'Light tower',
    units: 'mm',
    layout: { cuts },
    stock: [{ id: 'slate', width: 150, height: 110, direction }],
    roofs: [
      {
        id: 'light',
        kind: 'pyramid',
        shape: { width: 47.3, depth: 41.1, pitch: 57 },
        layers: [{ as: 'cover', stock: 'slate' }],
      },
    ],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const { project } = read.value;
  return layoutJob(project, produce(project).roofs).job;
};

describe('a layout searched for in the browser', () => {
  it('is the one that Node finds for the same seed and rounds, to the last digit', async () => {
    const rounds = 10;
    const { page, close } = await openPage(await sharedBrowser(), inject('benchUrl'));
    try {
      for (const [direction, cuts] of [
        ['two-way', 'free'],
        ['any', 'free'],
        ['two-way', 'strips'],
      ] as const) {
        const job = jobOf(direction, cuts);
        const found = await page.evaluate(
          ({ name, task }) =>
            new Promise<Layout>((done, fail) => {
              const beside = new Worker(`/assets/${name}`, { type: 'module' });
              beside.onerror = ({ message }) => fail(new Error(message));
              beside.onmessage = ({ data }: MessageEvent<{ layout: Layout; isDone: boolean }>) => {
                if (data.isDone) done(data.layout);
              };
              beside.postMessage(task);
            }),
          { name: worker ?? '', task: { job, rounds, seconds: 600 } },
        );
        expect(JSON.stringify(found), `${direction}, ${cuts}`).toBe(JSON.stringify(bestLayout(job, { rounds })));
        expect(found.leftOut).toEqual([]);
      }
    } finally {
      await close();
    }
  });
});
