import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import { benchFile } from './tools/bench-file.ts';
import { handbook } from './tools/handbook/vite-plugin.ts';

export default defineConfig({
	root: 'src/web',
	base: './',
	plugins: [handbook(), svelte()],
	build: {
		outDir: '../../dist/page',
		emptyOutDir: true,
		target: 'es2023',
		assetsInlineLimit: 0,
		modulePreload: { polyfill: false },
		rolldownOptions: {
			// How long each plugin took is nothing that a first start has to tell.
			checks: { pluginTimings: false },
			output: {
				codeSplitting: { groups: [{ debugName: 'bench', name: benchFile(), includeDependenciesRecursively: false }] },
			},
		},
	},
});
