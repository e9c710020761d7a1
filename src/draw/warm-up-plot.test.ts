import { expect, test } from 'vitest';
import { warmUpPlot } from './warm-up-plot.ts';

const points = (svg: string): number[][] =>
	[...svg.matchAll(/<circle class="point" cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [Number(x), Number(y)]);

test('a warm-up is drawn over time, the frequency as it went, and where it was ready', () => {
	const readings = [0, 10, 20, 30].map((minutes) => ({ atS: 60 * minutes, frequencyHz: 1e6 + 900 - 30 * minutes }));
	const svg = warmUpPlot({ readings, readyAtS: 1200, limitHz: 100, widthPx: 640, heightPx: 240 });
	const drawn = points(svg);
	expect(drawn).toHaveLength(4);
	// Even in time and even in frequency: even on paper; falling frequency runs down.
	const steps = drawn.slice(1).map(([x = 0, y = 0], k) => [x - (drawn[k]?.[0] ?? 0), y - (drawn[k]?.[1] ?? 0)]);
	for (const [x, y] of steps) {
		expect(x).toBeCloseTo(steps[0]?.[0] ?? 0, 0);
		expect(y).toBeCloseTo(steps[0]?.[1] ?? 0, 0);
	}
	expect(steps[0]?.[1]).toBeGreaterThan(10);
	expect(svg).toContain('ready');
	expect(warmUpPlot({ readings, readyAtS: null, limitHz: 100, widthPx: 640, heightPx: 240 })).not.toContain('ready');
	expect(warmUpPlot({ readings: [], readyAtS: null, limitHz: 100, widthPx: 640, heightPx: 240 })).toBe('');
});
