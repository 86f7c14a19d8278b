/** All that only the guide needs: one piece of script, fetched when the guide is first opened. */
export { default as Article } from './Article.svelte';
export { default as GuideList } from './GuideList.svelte';
export { EN } from '$lib/guide/en';
