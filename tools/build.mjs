/** Builds the terminal and server program (dist/cli.mjs) and the page (dist/page). */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as bundle } from 'esbuild';
import { build as buildPage } from 'vite';

const root = dirname(dirname(fileURLToPath(import.meta.url)));

await bundle({
	entryPoints: [join(root, 'src/cli/run.ts')],
	outfile: join(root, 'dist/cli.mjs'),
	bundle: true,
	platform: 'node',
	target: 'node20',
	format: 'esm',
	packages: 'external',
	sourcemap: true,
	logLevel: 'warning',
});
await buildPage({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
