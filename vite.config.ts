import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

export default defineConfig({
	root: 'src/web',
	base: './',
	plugins: [svelte()],
	build: {
		outDir: '../../dist/page',
		emptyOutDir: true,
		target: 'es2023',
		assetsInlineLimit: 0,
		modulePreload: { polyfill: false },
	},
});
