import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

export default ts.config(
  { ignores: ['**/dist/', '**/output/', 'ui/src/lib/generated/'] },
  js.configs.recommended,
  ts.configs.strict,
  svelte.configs.recommended,
  {
    languageOptions: { globals: { ...globals.browser } },
    rules: {
      // TypeScript checks names already, and knows the types that lint does not.
      'no-undef': 'off',
      eqeqeq: 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: {
      parserOptions: { extraFileExtensions: ['.svelte'], parser: ts.parser, svelteConfig },
    },
    rules: {
      // Text is text: markup out of a string would open the door to a hostile bundle.
      'svelte/no-at-html-tags': 'error',
      // A style attribute in a template is blocked by the Content-Security-Policy; a style:
      // directive is not.
      'svelte/no-inline-styles': ['error', { allowTransitions: true }],
    },
  },
  {
    // One door to the shell: everything else goes through lib/backend.
    files: ['ui/src/**/*.{ts,svelte}'],
    ignores: ['ui/src/lib/backend/**'],
    rules: {
      'no-restricted-imports': ['error', { patterns: ['@tauri-apps/*'] }],
    },
  },
  {
    files: ['tests/**/*.{mjs,ts}', 'ui/*.config.{js,ts}'],
    languageOptions: { globals: { ...globals.node } },
  },
);
