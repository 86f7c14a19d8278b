import '../styles/index.css';
import { mount } from 'svelte';
import { applyTheme } from '$lib/settings/theme';
import Gallery from './Gallery.svelte';

const address = new URL(location.href);
const theme = address.searchParams.get('theme');
applyTheme(theme === 'dark' || theme === 'light' ? theme : 'system');
const target = document.getElementById('app');
if (target) mount(Gallery, { target, props: { page: address.searchParams.get('page') ?? 'bore' } });
