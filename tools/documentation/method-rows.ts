/** Rows of docs/if-curve.md that set the ways of aligning beside each other, from what the bench measured last. */

/** The way as the table calls it, and the figure of the bench that measured it. */
const figureOf: Readonly<Record<string, string>> = {
	'plain peaking, two passes': 'plain peaking by the same hand',
	'loaded peaking, one pass': 'loaded peaking by the same hand',
	'guided, every circuit on the IF': 'guided setting, aimed at every circuit on the IF',
	'guided, a symmetrical curve': 'guided setting, aimed at a symmetrical curve',
};

/** Strips, circuits off and asymmetry, each as the table writes it. */
function measured(figures: string, name: string): readonly [string, string, string] {
	const row = figures.split('\n').find((line) => line.startsWith(`| response | ${name} |`));
	const reached = /([\d.]+) c \/ ([\d.]+) c off, ([\d.]+) \/ ([\d.]+) dB of asymmetry/.exec(row ?? '');
	const strips = /\| (\d+) random strips/.exec(row ?? '')?.[1];
	if (!reached || strips === undefined) throw new Error(`missing figure "${name}", expected in docs/figures.md`);
	const [halfC, mostC, halfDb, mostDb] = reached.slice(1).map(Number) as [number, number, number, number];
	const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);
	return [strips, `${kc(halfC)} and ${kc(mostC)} kc`, `${halfDb.toFixed(1)} and ${mostDb.toFixed(1)} dB`];
}

/** The page with the last three cells of each such row as the bench measured them, the columns as wide as they were. */
export function withMethodRows(page: string, figures: string): string {
	return page
		.split('\n')
		.map((line) => {
			const cells = line.split('|');
			const name = figureOf[cells[1]?.trim() ?? ''];
			if (name === undefined) return line;
			const last = measured(figures, name);
			return cells
				.map((cell, place) => (place < 3 || place > 5 ? cell : ` ${last[place - 3]} `.padEnd(cell.length)))
				.join('|');
		})
		.join('\n');
}
