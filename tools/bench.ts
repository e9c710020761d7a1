/** Measures every figure of the bench, prints them, and writes docs/figures.md. It fails nothing: it tells. */
import { readdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import type { Figure } from './figures/figure.ts';

const topics = readdirSync('tools/figures')
	.filter((name) => name.endsWith('.ts') && name !== 'figure.ts')
	.sort();
const only = process.argv[2];

const rows: string[] = [];
for (const topic of topics) {
	if (only !== undefined && topic !== `${only}.ts`) continue;
	const { figures } = (await import(`./figures/${topic}`)) as { figures: readonly Figure[] };
	for (const figure of figures) {
		try {
			const { reached, met } = await figure.measure();
			rows.push(
				`| ${figure.name} | ${figure.target} | ${reached} | ${met === null ? '-' : met ? 'yes' : 'no'} | ${figure.how} |`,
			);
		} catch (error) {
			rows.push(
				`| ${figure.name} | ${figure.target} | could not be measured: ${(error as Error).message.split('\n')[0]} | no | ${figure.how} |`,
			);
		}
		process.stdout.write(`${rows.at(-1)}\n`);
	}
}
if (only === undefined) {
	const head = [
		'# Figures',
		'',
		`Measured by \`npm run bench\` with Node ${process.versions.node} on ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}, ${new Date().toISOString().slice(0, 10)}. Machines differ: ratios say more than times.`,
		'',
		'| figure | target | reached | met | how |',
		'|---|---|---|---|---|',
	];
	writeFileSync('docs/figures.md', `${[...head, ...rows].join('\n')}\n`);
}
