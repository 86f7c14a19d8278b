import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/**
 * What the first picture needs early. The typeface comes with the script and not after it: letters
 * that are asked for only once they are to be drawn leave that picture without words. The core is
 * asked by a script of its own (`src/ahead.ts`), so that it answers while the large one is read.
 */
function firstPicture(): Plugin {
  return {
    name: 'first-picture',
    transformIndexHtml: {
      order: 'post',
      handler(_, { bundle }) {
        const files = Object.values(bundle ?? {});
        const typeface = files
          .filter(({ fileName }) => /hyperlegible-next-latin-.*\.woff2$/.test(fileName))
          .map(({ fileName }) => ({
            tag: 'link',
            attrs: { rel: 'preload', as: 'font', type: 'font/woff2', crossorigin: '', href: `./${fileName}` },
            injectTo: 'head' as const,
          }));
        const ahead = files
          .filter((file) => file.type === 'chunk' && file.isEntry && file.name === 'ahead')
          .map(({ fileName }) => ({
            tag: 'script',
            attrs: { type: 'module', crossorigin: '', src: `./${fileName}` },
            injectTo: 'head-prepend' as const,
          }));
        return [...ahead, ...typeface];
      },
    },
  };
}

export default defineConfig({
  root: here('.'),
  base: './',
  plugins: [svelte({ configFile: here('./svelte.config.js') }), firstPicture()],
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
    rollupOptions: { input: { index: here('./index.html'), ahead: here('./src/ahead.ts') } },
  },
});
