import { svelteTesting } from '@testing-library/svelte/vite';
import { defineConfig, mergeConfig } from 'vitest/config';
import base from './vite.config';

export default mergeConfig(
  base,
  defineConfig({
    plugins: [svelteTesting()],
    test: {
      environment: 'happy-dom',
      include: ['src/**/*.test.ts'],
      // A component test must not depend on the machine's language or place.
      env: { TZ: 'UTC', LANG: 'en_US.UTF-8' },
      restoreMocks: true,
    },
  }),
);
