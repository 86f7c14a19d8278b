import type { Theme } from './settings.svelte';

/** The two themes that the styles know. */
export type ShownTheme = 'light' | 'dark';

const DARK = '(prefers-color-scheme: dark)';

export function shownTheme(theme: Theme, systemIsDark: boolean): ShownTheme {
  if (theme === 'system') return systemIsDark ? 'dark' : 'light';
  return theme;
}

/** Writes the theme on the page and follows the system while the setting says so. Call to stop. */
export function applyTheme(theme: Theme, page: Document = document): () => void {
  const query = page.defaultView?.matchMedia(DARK);
  const write = () => {
    page.documentElement.dataset['theme'] = shownTheme(theme, query?.matches ?? false);
  };
  write();
  if (!query || theme !== 'system') return () => undefined;
  query.addEventListener('change', write);
  return () => query.removeEventListener('change', write);
}
