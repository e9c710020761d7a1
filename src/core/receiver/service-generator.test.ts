import { expect, test } from 'vitest';
import { attenuatedV, drivenTo, generatorHz, serviceGenerator, serviceSignals } from './service-generator.ts';
import { standardTone } from './signal.ts';

const seeds = Array.from({ length: 40 }, (_, k) => k + 1);
const warmS = 3 * 3600;

test('the dials of forty old generators are off by what such dials are off by', () => {
	const errors = seeds.flatMap((seed) =>
		[200e3, 455e3, 1000e3, 2000e3, 5000e3].map(
			(dialHz) => generatorHz(serviceGenerator(seed), dialHz, warmS) / dialHz - 1,
		),
	);
	const beyondOne = errors.filter((share) => Math.abs(share) > 0.01).length;
	// Few are better than 1 % all over [eddystone-659]; none is a wreck.
	expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.02);
	expect(beyondOne).toBeGreaterThan(errors.length / 20);
});

test('the plates follow the dial when its play is used up, and stand elsewhere when it is reached from the other side', () => {
	const generator = serviceGenerator(3);
	const playHz = 1e6 * generator.slopShare;
	const fromBelow = drivenTo(generator, 990e3, 1e6);
	const fromAbove = drivenTo(generator, 1010e3, 1e6);
	expect(fromBelow).toBeCloseTo(1e6 - playHz / 2, 6);
	expect(fromAbove - fromBelow).toBeCloseTo(playHz, 6);
	expect(drivenTo(generator, fromBelow, 1e6 - playHz / 4)).toBe(fromBelow);
});

test('a cold generator comes up to its frequency, most of the way in its warming time', () => {
	const generator = serviceGenerator(3);
	const at = (onForS: number): number => generatorHz(generator, 1e6, onForS) / generatorHz(generator, 1e6, warmS) - 1;
	expect(at(0)).toBeCloseTo(-generator.coldShare, 8);
	expect(at(generator.warmingS) / at(0)).toBeCloseTo(Math.exp(-1), 8);
});

test('what leaks is there with the lead off, and harmonics stand at their multiples', () => {
	const generator = serviceGenerator(3);
	const place = { frequencyHz: 455e3, ...standardTone, into: 'antenna' } as const;
	const given = (markedV: number, isLeadOn: boolean) =>
		serviceSignals(generator, { place, platesHz: 455e3, markedV, isLeadOn, onForS: warmS });
	const [own, second] = given(1e-3, true);
	expect(second?.frequencyHz).toBe(2 * (own?.frequencyHz ?? 0));
	expect(own?.levelV).toBeCloseTo(Math.hypot(attenuatedV(generator, 1e-3), generator.leakV), 12);
	expect(given(1e-3, false)[0]?.levelV).toBe(generator.leakV);
	expect(own?.depth).toBeCloseTo(0.3 * generator.depthTimes, 12);
});
