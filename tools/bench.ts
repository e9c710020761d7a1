/**
 * Measures the figures of the bench, prints them, and writes them to docs/figures.md, a section a topic. It fails nothing: it tells.
 * With a topic's name only that topic is measured, and only its section is written anew.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import type { Figure } from './figures/figure.ts';

const path = 'docs/figures.md';
const topics = readdirSync('tools/figures')
	.filter((name) => name.endsWith('.ts') && name !== 'figure.ts')
	.map((name) => name.replace('.ts', ''))
	.sort();
const only = process.argv[2];

async function row(figure: Figure): Promise<string> {
	try {
		const { reached, met } = await figure.measure();
		return `| ${figure.name} | ${figure.target} | ${reached} | ${met === null ? '-' : met ? 'yes' : 'no'} | ${figure.how} |`;
	} catch (error) {
		return `| ${figure.name} | ${figure.target} | could not be measured: ${(error as Error).message.split('\n')[0]} | no | ${figure.how} |`;
	}
}

/** Sections as they stand, by topic. */
const sections = new Map(
	readFileSync(path, 'utf8')
		.split(/^## /m)
		.slice(1)
		.map((section) => [section.split('\n', 1)[0] as string, section.trimEnd()] as const),
);
for (const topic of topics) {
	if (only !== undefined && topic !== only) continue;
	const { figures } = (await import(`./figures/${topic}.ts`)) as { figures: readonly Figure[] };
	const rows: string[] = [];
	for (const figure of figures) {
		rows.push(await row(figure));
		process.stdout.write(`${rows.at(-1)}\n`);
	}
	const when = `Measured ${new Date().toISOString().slice(0, 10)} with Node ${process.versions.node} on ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}.`;
	sections.set(
		topic,
		[topic, '', when, '', '| figure | target | reached | met | how |', '|---|---|---|---|---|', ...rows].join('\n'),
	);
}
const head = `# Figures

What \`npm run bench\` measured last, topic by topic (\`npm run bench receiver\` measures one). Machines differ: ratios say more than times.`;
const written = topics.flatMap((topic) => {
	const section = sections.get(topic);
	return section ? [`## ${section}`] : [];
});
writeFileSync(path, `${[head, ...written].join('\n\n')}\n`);
