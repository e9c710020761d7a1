/**
 * Measures the figures of the bench, prints them, and writes them to docs/figures.md. It fails nothing: it tells.
 * With a topic's name only that topic is measured; the lines of the others stay as they are.
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import type { Figure, Reached } from './figures/figure.ts';
import { type FigureRow, figuresPage, rowsOf } from './figures-page.ts';

const path = 'docs/figures.md';
const topics = readdirSync('tools/figures')
	.filter((name) => name.endsWith('.ts') && name !== 'figure.ts')
	.map((name) => name.replace('.ts', ''))
	.sort();
const only = process.argv[2];
if (only !== undefined && !topics.includes(only)) {
	process.stderr.write(`give a topic of ${topics.join(', ')}, or none for all\n`);
	process.exit(2);
}

async function reachedBy(figure: Figure): Promise<Reached> {
	try {
		return await figure.measure();
	} catch (error) {
		const [why] = (error as Error).message.split('\n');
		return { reached: `could not be measured: ${why}`, used: Number.POSITIVE_INFINITY };
	}
}

/** The page of the run that was committed last; empty where there is none. */
function committedPage(): string {
	try {
		return execFileSync('git', ['show', `HEAD:${path}`], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
	} catch {
		return '';
	}
}

const before = rowsOf(committedPage());
const standing = rowsOf(readFileSync(path, 'utf8'));
const measured = `${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${cpus().length} x ${cpus()[0]?.model ?? 'unknown processor'}`;
const rows: FigureRow[] = [];
for (const topic of topics) {
	if (only !== undefined && topic !== only) {
		rows.push(...standing.filter((row) => row.topic === topic));
		continue;
	}
	const { figures } = (await import(`./figures/${topic}.ts`)) as { figures: readonly Figure[] };
	for (const figure of figures) {
		const { name, target, by, how } = figure;
		const { reached, used, ratio = '-' } = await reachedBy(figure);
		rows.push({ topic, figure: name, target, reached, used, ratio, by, how, measured });
		const was = before.find((row) => row.figure === name);
		process.stdout.write(
			`${topic}: ${name}\n  ${reached}\n  used ${used?.toFixed(2) ?? '-'} of the target (${target})${was ? `; before ${was.used?.toFixed(2) ?? '-'}` : ''}\n`,
		);
	}
}
const page = figuresPage(rows, before);
writeFileSync(path, page);
process.stdout.write(`\n${page.slice(page.indexOf('Of '), page.indexOf('\n| '))}`);
