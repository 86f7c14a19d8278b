import './styles/index.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { chooseBackend } from '$lib/backend';

const target = document.getElementById('app');
if (!target) throw new Error('the page has no place for the app');
mount(App, { target, props: { backend: chooseBackend() } });
