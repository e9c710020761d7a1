import { expect, test } from 'vitest';
import { type ResponseChart, responseChart } from './response-chart.ts';

const chart: ResponseChart = {
	ifHz: 455e3,
	points: [-10, -5, 0, 5, 10].map((offset) => ({
		frequencyHz: 455e3 + 1e3 * offset,
		levelDb: -3 - 0.2 * offset * offset,
		uncertaintyDb: 0.5,
	})),
	before: [],
	fit: [],
	target: [],
	cursorHz: 460e3,
	widthPx: 720,
	heightPx: 400,
};

/** Places of the readings' circles. */
function circles(svg: string): { xPx: number; yPx: number }[] {
	return [...svg.matchAll(/<circle class="point" cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => ({
		xPx: Number(x),
		yPx: Number(y),
	}));
}

test('readings stand where their frequency and level are, the IF in the middle', () => {
	const places = circles(responseChart(chart, 'a curve'));
	expect(places).toHaveLength(5);
	const [far, near, top] = places.map(({ yPx }) => yPx) as [number, number, number, number, number];
	// 20 dB and 5 dB below the top: four times as far down.
	expect((far - top) / (near - top)).toBeCloseTo(4, 1);
	const [left, , middle, , right] = places.map(({ xPx }) => xPx) as [number, number, number, number, number];
	expect(middle - left).toBeCloseTo(right - middle, 0);
	expect(middle).toBeCloseTo((52 + 720 - 14) / 2, 0);
});

test('nothing is drawn outside of a phone-wide chart, and letters keep their size', () => {
	const svg = responseChart({ ...chart, widthPx: 340, heightPx: 300 }, 'a <curve>');
	for (const { xPx, yPx } of circles(svg)) {
		expect(xPx).toBeGreaterThan(0);
		expect(xPx).toBeLessThan(340);
		expect(yPx).toBeGreaterThan(0);
		expect(yPx).toBeLessThan(300);
	}
	expect(svg).toContain('width="340"');
	expect(svg).toContain('a &lt;curve&gt;');
	const labels = [...svg.matchAll(/x="([\d.]+)" y="276" text-anchor="middle"/g)].map(([, x]) => Number(x));
	expect(labels.length).toBeGreaterThan(2);
	for (const [place, x] of labels.entries())
		if (place > 0) expect(x - (labels[place - 1] as number)).toBeGreaterThan(40);
});

test('a compared sweep of another scale stands with its top where the other has it, under its own letter', () => {
	const points = chart.points.map((point) => ({ ...point, levelDb: point.levelDb - 70 }));
	const same = { name: 'as found', points, isOfOtherScale: true };
	const svg = responseChart({ ...chart, before: [same, { ...same, name: 'proof' }] }, 'two curves');
	const [, compared = ''] = /<path class="before" d="M([^"]+)"/.exec(svg) ?? [];
	const drawn = compared.split(' L').map((words) => Number(words.split(' ')[1]));
	expect(drawn).toEqual(circles(svg).map(({ yPx }) => yPx));
	const heights = [...svg.matchAll(/y="([\d.]+)" text-anchor="end">[AB]</g)].map(([, y]) => Number(y));
	expect(heights).toHaveLength(2);
	expect(Math.abs((heights[0] as number) - (heights[1] as number))).toBeGreaterThanOrEqual(16);
});

test('an empty chart shows its axes about the IF', () => {
	expect(responseChart({ ...chart, points: [] }, 'no readings yet')).toContain('IF 455');
	// A sweep that was just begun may already have the fit of those before it.
	const fit = chart.points.map((point) => ({ ...point, uncertaintyDb: 0.1 }));
	for (const points of [[], chart.points]) {
		const svg = responseChart({ ...chart, points, fit }, 'a fit alone');
		expect(svg).not.toMatch(/NaN|Infinity/);
	}
});
