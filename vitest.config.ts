import { defineConfig, mergeConfig } from 'vitest/config';
import viteConfig from './vite.config.ts';

export default mergeConfig(
  viteConfig,
  defineConfig({
    test: {
      // Every core: left to itself the runner spares one, of two that is half.
      maxWorkers: '100%',
      projects: [
        {
          extends: true,
          test: {
            name: 'unit',
            include: ['src/**/*.test.{ts,tsx}', 'tests/**/*.test.ts'],
            exclude: ['tests/browser/**'],
            setupFiles: ['tests/laws/seed.ts'],
            // Nothing under test keeps a state of its own: the modules of one file serve the next.
            isolate: false,
            testTimeout: 60_000,
          },
        },
        {
          extends: true,
          test: {
            name: 'browser',
            include: ['tests/browser/**/*.test.ts'],
            globalSetup: ['tests/browser/serve-bench.ts'],
            // A browser that draws without a graphics card takes every core by itself, and its time where much else runs.
            fileParallelism: false,
            // The browsers that one file has started serve the next.
            isolate: false,
            testTimeout: 240_000,
            hookTimeout: 240_000,
          },
        },
      ],
    },
  }),
);
