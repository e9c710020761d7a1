/** docs/figures.md: one table of all figures, and what got worse since the last committed run. Written by the bench and read by it again. */

/** One line of the table. */
export interface FigureRow {
	readonly topic: string;
	readonly figure: string;
	readonly target: string;
	readonly reached: string;
	/** How much of what the target allows was used; endless where it could not be measured, `null` where there is no target. */
	readonly used: number | null;
	readonly ratio: string;
	readonly by: 'clock' | 'count';
	readonly how: string;
	readonly measured: string;
}

const columns = ['topic', 'figure', 'target', 'reached', 'used', 'before', 'ratio', 'by', 'how', 'measured'] as const;

/** From how much more used a figure counts as worse: of time measured by the clock, and of what the seeds decide. Chosen. */
const tolerance = { clock: 0.3, count: 0.05 } as const;

const usedWords = (used: number | null): string =>
	used === null ? '-' : used === Number.POSITIVE_INFINITY ? 'missed' : used.toFixed(2);
const usedOf = (words: string): number | null =>
	words === '-' ? null : words === 'missed' ? Number.POSITIVE_INFINITY : Number(words);

/** The lines of the table in the page's text. */
export function rowsOf(page: string): readonly FigureRow[] {
	return page.split('\n').flatMap((line) => {
		const cells = line.split('|').map((cell) => cell.trim());
		if (cells.length !== columns.length + 2 || cells[1] === columns[0] || cells[1]?.startsWith('---')) return [];
		const cell = (name: (typeof columns)[number]): string => cells[1 + columns.indexOf(name)] as string;
		return [
			{
				topic: cell('topic'),
				figure: cell('figure'),
				target: cell('target'),
				reached: cell('reached'),
				used: usedOf(cell('used')),
				ratio: cell('ratio'),
				by: cell('by') === 'clock' ? ('clock' as const) : ('count' as const),
				how: cell('how'),
				measured: cell('measured'),
			},
		];
	});
}

const listed = (lines: readonly string[], none: string): string =>
	lines.length > 0 ? lines.map((line) => `- ${line}`).join('\n') : none;

/**
 * The page's text.
 * @param before lines of the run that was committed last
 */
export function figuresPage(rows: readonly FigureRow[], before: readonly FigureRow[]): string {
	const earlier = new Map(before.map((row) => [row.figure, row]));
	const missed = rows.filter(({ used }) => used !== null && used > 1);
	const worse = rows.filter(({ figure, used, by }) => {
		const was = earlier.get(figure)?.used ?? null;
		return used !== null && was !== null && used > was * (1 + tolerance[by]) && used.toFixed(2) !== was.toFixed(2);
	});
	const gone = before.filter(({ figure }) => !rows.some((row) => row.figure === figure));
	const line = (row: FigureRow): string => {
		const was = earlier.get(row.figure);
		const cells: Readonly<Record<(typeof columns)[number], string>> = {
			...row,
			used: usedWords(row.used),
			before: was ? usedWords(was.used) : 'new',
		};
		return `| ${columns.map((name) => cells[name].replaceAll('|', '/')).join(' | ')} |`;
	};
	return `# Figures

What \`npm run bench\` measured; \`npm run bench receiver\` measures one topic and leaves the others as they stand. _Used_ is how much of what the target allows was taken, the worst of its parts: 1 or less meets it, and less is better. _Before_ is the same in the run that was committed last. _By clock_ hangs on the machine and on what else it does; _by count_ comes out the same on every machine. _Ratio_ is to ngspice or to the Cramer-Rao bound, on the same seeds.

Of ${rows.length} figures ${rows.filter(({ used }) => used !== null).length} have a target; ${missed.length} miss it:

${listed(
	missed.map(({ figure, target, reached }) => `${figure}: ${target}; reached ${reached}`),
	'none.',
)}

Worse than in the run that was committed last (by clock more than ${100 * tolerance.clock} % more used, by count more than ${100 * tolerance.count} %), or no longer measured:

${listed(
	[
		...worse.map(
			({ figure, used, reached }) =>
				`${figure}: used ${usedWords(used)}, before ${usedWords(earlier.get(figure)?.used ?? null)}; reached ${reached}, before ${earlier.get(figure)?.reached}`,
		),
		...gone.map(({ figure }) => `${figure}: no longer measured`),
	],
	'none.',
)}

| ${columns.join(' | ')} |
|${'---|'.repeat(columns.length)}
${rows.map(line).join('\n')}
`;
}
