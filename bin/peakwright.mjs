#!/usr/bin/env node
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
	process.stderr.write(
		`Peakwright needs Node 20.19 or newer; this is ${process.versions.node}: install a newer Node\n`,
	);
	process.exit(1);
}
const root = dirname(dirname(fileURLToPath(import.meta.url)));
const ready = spawnSync(process.execPath, [join(root, 'tools', 'ready.mjs')], { stdio: ['ignore', 2, 2] });
if (ready.status !== 0) process.exit(1);
await import(pathToFileURL(join(root, 'dist', 'cli.mjs')).href);
