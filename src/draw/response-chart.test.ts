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

test('an empty chart shows its axes about the IF', () => {
	expect(responseChart({ ...chart, points: [] }, 'no readings yet')).toContain('IF 455');
});
