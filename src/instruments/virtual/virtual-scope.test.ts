import { expect, test } from 'vitest';
import { depthFromEnvelope } from '#core/estimate/generator-level.ts';
import { createRandom } from '#core/numeric/random.ts';
import { serviceGenerator, serviceSignals } from '#core/receiver/service-generator.ts';
import { screenLook } from './virtual-scope.ts';

const setting = (markedV: number, depth: number) => ({
	place: { frequencyHz: 1e6, toneHz: 400, depth, into: 'antenna' as const },
	platesHz: 1e6,
	markedV,
	isLeadOn: true,
	onForS: 1e5,
});

test('the depth of 300 old generators is read off the screen within two standard deviations of the truth', () => {
	const random = createRandom(5);
	let within = 0;
	for (let seed = 1; seed <= 300; seed++) {
		const generator = serviceGenerator(seed);
		const marked = [0.3, 0.5, 0.8][seed % 3] ?? 0.3;
		const [own] = serviceSignals(generator, setting(0.02 * 50 ** random.uniform(), marked));
		const look = own && screenLook(own);
		if (!look) throw new Error(`seed ${seed}: nothing on the screen`);
		const depth = depthFromEnvelope(look.crest, look.trough);
		const missed = Math.abs(depth.value - Math.min(marked * generator.depthTimes, 1));
		if (missed <= 2 * (depth.uncertainty ?? 0)) within++;
		expect(depth.uncertainty).toBeLessThan(0.06);
	}
	expect(within / 300).toBeGreaterThanOrEqual(0.95);
});

test('the screen is filled by more than two fifths, and the trace stays on it', () => {
	for (let levelV = 0.02; levelV < 1; levelV *= 1.07) {
		const [own] = serviceSignals(serviceGenerator(3), setting(levelV, 0.3));
		const look = own && screenLook(own);
		expect(look?.crest.value).toBeGreaterThan(3.1);
		expect(Math.max(...(look?.edge ?? [9]))).toBeLessThanOrEqual(4.001);
	}
});

test('a weak output shows nothing on a scope', () => {
	const [own] = serviceSignals(serviceGenerator(3), setting(100e-6, 0.3));
	expect(own && screenLook(own)).toBe(null);
});
