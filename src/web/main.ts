import './style.css';
import { mount } from 'svelte';
import Page from './page.svelte';

const target = document.getElementById('page');
if (!target) throw new Error('missing element: #page, expected in index.html');
mount(Page, { target });
