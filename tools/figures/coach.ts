import { coachAdvice } from '../../src/advice/coach.ts';
import { createRandom } from '../../src/core/numeric/random.ts';
import type { Figure } from './figure.ts';

const turns = 2000;
/** Scatter of a frame's level at 20 dB of tone over noise in 4 kc. */
const scatterDb = 0.031;

export const figures: readonly Figure[] = [
	{
		name: 'coach: false alarms and misses in turns through the peak at 20 dB',
		target: 'below 0.1 % each; told within half a half-width and 1 dB',
		how: `${turns} seeded turns of one tuned circuit, even pace of 0.01 to 0.03 half-widths a frame`,
		async measure() {
			let early = 0;
			let missed = 0;
			const told: number[] = [];
			for (let seed = 0; seed < turns; seed++) {
				const { gaussian, uniform } = createRandom(50_000 + seed);
				const step = 0.01 + 0.02 * uniform();
				const levels: number[] = [];
				let at: number | null = null;
				for (let x = -1.5; x < 1.5 && at === null; x += step) {
					levels.push(-10 * Math.log10(1 + x * x) + scatterDb * gaussian());
					if (coachAdvice(levels, 'maximum', 5, scatterDb).kind === 'past') at = x;
				}
				if (at === null) missed++;
				else if (at < 0) early++;
				else told.push(at);
			}
			const worst = Math.max(...told);
			const middle = [...told].sort((a, b) => a - b)[told.length >> 1] ?? Number.NaN;
			const dropDb = 10 * Math.log10(1 + worst * worst);
			return {
				reached: `${early} early, ${missed} missed of ${turns}; told at ${middle.toFixed(2)} half-widths in the median, ${worst.toFixed(2)} and ${dropDb.toFixed(2)} dB at worst`,
				met: early / turns < 0.001 && missed / turns < 0.001 && worst <= 0.5 && dropDb <= 1,
			};
		},
	},
];
