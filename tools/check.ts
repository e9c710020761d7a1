/** The gate before the tests: types, lint, layers, dead code, and the house rules that a tool can hold. */
import { spawn } from 'node:child_process';
import { documentationFaults } from './documentation/documentation.ts';
import { houseRules } from './house-rules.ts';

interface Check {
	readonly name: string;
	readonly command: readonly [string, ...string[]];
}

const bin = (name: string) => `node_modules/${name}`;

const checks: readonly Check[] = [
	{ name: 'types of the pure layers', command: [bin('typescript/bin/tsc'), '-p', 'tsconfig.pure.json'] },
	{ name: 'types of server, terminal and tests', command: [bin('typescript/bin/tsc'), '-p', 'tsconfig.node.json'] },
	{
		name: 'types of the page',
		command: [
			bin('svelte-check/bin/svelte-check'),
			'--tsconfig',
			'./tsconfig.browser.json',
			'--fail-on-warnings',
			'--output',
			'human',
		],
	},
	{ name: 'lint', command: [bin('@biomejs/biome/bin/biome'), 'check', '--error-on-warnings'] },
	{
		name: 'layers',
		command: [bin('dependency-cruiser/bin/dependency-cruise.mjs'), 'src', '--config', '.dependency-cruiser.mjs'],
	},
	{ name: 'dead code', command: [bin('knip/bin/knip.js'), '--no-progress'] },
];

function run({ command }: Check): Promise<{ ok: boolean; text: string }> {
	return new Promise((resolve) => {
		const child = spawn(process.execPath, [...command], { stdio: ['ignore', 'pipe', 'pipe'] });
		let text = '';
		child.stdout.on('data', (chunk) => {
			text += chunk;
		});
		child.stderr.on('data', (chunk) => {
			text += chunk;
		});
		child.on('close', (status) => resolve({ ok: status === 0, text }));
	});
}

let failed = 0;
function tell(name: string, ok: boolean, text: string): void {
	process.stdout.write(`${ok ? 'ok    ' : 'FAILED'}  ${name}\n${ok ? '' : `${text.trimEnd()}\n`}`);
	if (!ok) failed++;
}

// Two at a time: most machines at a bench have few cores.
const waiting = [...checks];
async function worker(): Promise<void> {
	for (let check = waiting.shift(); check; check = waiting.shift()) {
		const { ok, text } = await run(check);
		tell(check.name, ok, text);
	}
}
await Promise.all([worker(), worker()]);
for (const { name, faults } of await houseRules()) tell(name, faults.length === 0, faults.join('\n'));
const stale = await documentationFaults();
tell('documentation is what the program makes', stale.length === 0, stale.join('\n'));
if (failed > 0) {
	process.stdout.write(`0 passed, ${failed} failed\n`);
	process.exitCode = 1;
}
