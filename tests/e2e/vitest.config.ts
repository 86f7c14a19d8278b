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
    // Two cores: a browser, its renderer and the core are enough at a time.
    fileParallelism: false,
    projects: [
      { test: { ...shared, name: 'browser', include: ['browser/**/*.test.ts'] } },
      { test: { ...shared, name: 'app', include: ['app/**/*.test.ts'] } },
    ],
  },
});
