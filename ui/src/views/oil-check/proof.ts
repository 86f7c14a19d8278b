/** Readings at taps and hot-oil checks: a piece of the program of its own, fetched when first opened. */
export { default as OilCheckView } from './OilCheckView.svelte';
export { default as TapReadingView } from '../taps/TapReadingView.svelte';
export { default as TapsView } from '../taps/TapsView.svelte';
