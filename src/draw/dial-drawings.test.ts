import { expect, test } from 'vitest';
import { bandChart } from './band-chart.ts';
import { dialScale } from './dial-scale.ts';

const picture = {
	marks: [
		{ share: 0, words: '540' },
		{ share: 0.5, words: '1000' },
		{ share: 1, words: '1600' },
	],
	nowShare: 0.5,
	measured: [
		{ share: 0, errorHz: 5e3, words: '+5.0' },
		{ share: 1, errorHz: -20e3, words: '\u221220.0' },
	],
	foretold: [],
	whistles: [{ share: 0.4, words: 'image at 900 kc' }],
};

/** Places of a path's points. */
const points = (path: string): number[][] =>
	[...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

test.each(['straight', 'arc'] as const)(
	'a %s scale keeps within its picture and points its flags the way the dial errs',
	(shape) => {
		for (const widthPx of [320, 720]) {
			const svg = dialScale({ ...picture, shape }, 'scale', widthPx);
			const [, width, height] = /viewBox="0 0 (\d+) (\d+)"/.exec(svg)?.map(Number) ?? [];
			expect(width).toBe(widthPx);
			for (const [x, y] of points(svg)) {
				expect(x).toBeGreaterThanOrEqual(0);
				expect(x).toBeLessThanOrEqual(widthPx);
				expect(y).toBeGreaterThanOrEqual(0);
				expect(y).toBeLessThanOrEqual(height as number);
			}
			const flags = [...svg.matchAll(/class="flag measured" d="([^"]+)"/g)].map(([, d]) => points(d as string));
			const [right, left] = flags as [number[][], number[][]];
			expect(right[1]?.[0] as number).toBeGreaterThan(right[0]?.[0] as number);
			// Four times the error, four times the flag.
			const length = (flag: number[][]): number => (flag[1]?.[0] as number) - (flag[0]?.[0] as number);
			expect(length(left) / length(right)).toBeCloseTo(-4, 0);
			expect(svg).toContain('image at 900 kc');
		}
	},
);

test('a chart draws each line through its own values', () => {
	const line = [540e3, 1000e3, 1600e3].map((dialHz, k) => ({ dialHz, value: k - 1 }));
	const svg = bandChart([{ words: 'one', kind: 'plain', points: line }], 'error, kc', 'chart', 720);
	const [, drawn = ''] = /class="ink-line" d="(M[^"]*L[^"]*)"/.exec(svg) ?? [];
	const [first, second, third] = points(drawn) as [number[], number[], number[]];
	expect(first[1]).toBeGreaterThan(second[1] as number);
	expect((first[1] as number) - (second[1] as number)).toBeCloseTo((second[1] as number) - (third[1] as number), 0);
	expect(((second[0] as number) - (first[0] as number)) / ((third[0] as number) - (first[0] as number))).toBeCloseTo(
		460 / 1060,
		2,
	);
});

test('hostile words stay words in the drawings of the dial', () => {
	const hostile = '"><img src=x>&';
	const line = [0, 1, 2].map((value) => ({ dialHz: 540e3 + value * 1e5, value }));
	const drawn = [
		dialScale(
			{
				...picture,
				shape: 'straight',
				marks: [{ share: 0, words: hostile }],
				whistles: [{ share: 0.5, words: hostile }],
				measured: [{ share: 0.2, errorHz: 1e3, words: hostile }],
			},
			hostile,
			720,
		),
		bandChart([{ words: hostile, kind: 'plain', points: line }], hostile, hostile, 720),
	];
	for (const svg of drawn) {
		expect(svg).not.toContain('<img');
		expect(svg.match(/&quot;&gt;&lt;img src=x&gt;&amp;/g)?.length).toBeGreaterThan(2);
	}
});
