import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: here('.'),
  base: './',
  plugins: [svelte({ configFile: here('./svelte.config.js') })],
  resolve: { alias: { $lib: here('./src/lib') } },
  clearScreen: false,
  build: {
    outDir: here('./dist'),
    emptyOutDir: true,
    // What the oldest web views that we mean to run in understand.
    target: ['chrome111', 'safari16.4'],
    // The Content-Security-Policy takes fonts and scripts from the app's own origin only, so
    // nothing may be turned into a data: address.
    assetsInlineLimit: 0,
    // The polyfill fetches; every web view we run in has module preloading or does without.
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1500,
  },
});
