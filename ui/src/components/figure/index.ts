export { Frame } from './frame.svelte';
export { placeInRows, type PlacedLabel, type RowLabel } from './rows';
export { textWidth } from './text';
