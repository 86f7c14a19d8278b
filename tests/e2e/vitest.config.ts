import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const shared = {
  root: fileURLToPath(new URL('.', import.meta.url)),
  environment: 'node',
  // Waiting for a real program on a busy machine; no assertion depends on it.
  testTimeout: 120_000,
  hookTimeout: 120_000,
};

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          ...shared,
          name: 'browser',
          include: ['browser/**/*.test.ts'],
          // Each file has a server, a store and a browser of its own, and waits for them most of the
          // time: on two cores, three files at a time take about a third of one by one.
          maxWorkers: 3,
          // What the files share, Chromium above all, is loaded and started once for each worker.
          isolate: false,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...shared,
          name: 'app',
          include: ['app/**/*.test.ts'],
          // A display, a window and its driver are enough at a time.
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
