import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import { levelStep, levelStepWords } from './level-step.ts';

function readings(levelDb: number, sigmaDb: number, seed: number): number[] {
	const { gaussian } = createRandom(seed);
	return Array.from({ length: 10 }, () => levelDb + sigmaDb * gaussian());
}
const step = (readDb: number, sigmaDb = 0.03, seed = 1) =>
	levelStep(readings(-20, sigmaDb, seed), readings(-20 - readDb, sigmaDb, seed + 1), sigmaDb);

// Static law y = x - a max(0, v - delay): the reading of a 6 dB step against the error of the -6 dB width, closed form: 5.91: 0.5 %, 5.73: 1.6 %, 5.28: 4.4 %, 4.45: 10.7 %.
test('steps that AVC shortens are found, those that it leaves alone are passed', () => {
	for (const readDb of [6, 5.91, 5.8, 6.2]) expect(step(readDb).kind, String(readDb)).toBe('linear');
	for (const readDb of [5.28, 4.45, 3.45, 1]) expect(step(readDb).kind, String(readDb)).toBe('too strong');
	for (const readDb of [7, 12]) expect(step(readDb).kind, String(readDb)).toBe('more than 6 dB');
	expect(step(0.1).kind).toBe('nothing changed');
	expect(levelStepWords(step(4.45))).toContain('make it weaker');
});

test('up or down is the same', () => {
	expect(levelStep(readings(-26, 0.03, 1), readings(-20, 0.03, 2), 0.03).kind).toBe('linear');
});

test('a meter that cannot tell says so, and two typed readings of a tenth of a decibel are enough to find a shortfall of half a decibel', () => {
	expect(step(6, 0.6).kind).toBe('uncertain');
	expect(levelStep([-20], [-25.4], 0.029).kind).toBe('too strong');
});
