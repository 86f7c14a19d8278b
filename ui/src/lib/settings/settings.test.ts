import { describe, expect, it } from 'vitest';
import { INCH_UNITS, METRIC_UNITS } from '$lib/quantity/units';
import { startLocale, unitsForLocale } from './settings.svelte';
import { applyTheme, shownTheme } from './theme';

describe('the theme', () => {
  it('follows the system only when it is asked to', () => {
    expect(shownTheme('system', true)).toBe('dark');
    expect(shownTheme('system', false)).toBe('light');
    expect(shownTheme('light', true)).toBe('light');
    expect(shownTheme('dark', false)).toBe('dark');
  });
  it('is written on the page', () => {
    applyTheme('dark');
    expect(document.documentElement.dataset['theme']).toBe('dark');
    applyTheme('light');
    expect(document.documentElement.dataset['theme']).toBe('light');
  });
});

describe('a device’s language', () => {
  it('gives the units that its region reads', () => {
    expect(unitsForLocale('en-US')).toBe(INCH_UNITS);
    expect(unitsForLocale('en')).toBe(INCH_UNITS);
    expect(unitsForLocale('de-DE')).toBe(METRIC_UNITS);
    expect(unitsForLocale('en-GB')).toBe(METRIC_UNITS);
  });
  it('is the first that is known, English where none is', () => {
    expect(startLocale(['xx-XX', 'de-DE'])).toBe('de-DE');
    expect(startLocale([])).toBe('en-US');
    expect(startLocale(['C', 'es-MX'])).toBe('es-MX');
    expect(startLocale(['C'])).toBe('en-US');
  });
});
