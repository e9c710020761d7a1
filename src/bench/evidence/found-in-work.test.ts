import { expect, test } from 'vitest';
import type { BenchSet } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import type { Fault } from '#core/receiver/faults.ts';
import type { Happening } from '#record/run.ts';
import { provedRun } from '../../../test/proved-run.ts';
import { runEntries, started, sweptByHand, turned } from '../../../test/run-on-paper.ts';
import type { FoundAnswer } from './found-answer.ts';
import { runEvidence } from './run-evidence.ts';

const healthy: BenchSet = { design: tm517, faults: [], turns: factoryTurns(tm517), pointerSlipM: 0 };
const withFaults = (...faults: Fault[]): BenchSet => ({ ...healthy, faults });

const found = (...happenings: Happening[]): Record<string, FoundAnswer> =>
	Object.fromEntries(runEvidence(runEntries([started(), ...happenings]), 0).map((one) => [one.test, one]));

test('an IF curve on its aim, as wide as the set\u2019s own circuits, speaks for itself and fits', () => {
	const { curve, aim, 'curve-fit': fit } = found(...sweptByHand(healthy, { order: 1 }));
	expect(curve).toMatchObject({ outcome: 'one', foundIn: 'IF curve' });
	expect(aim?.outcome).toBe('on');
	expect(fit?.outcome).toBe('fits');
});

// Physics of coupled circuits: two humps beyond critical coupling, a wide low peak with the windings damped.
test('two humps, damp windings and a strip off its aim are read from the curve', () => {
	const near = ([0, 1] as const).map((transformer): Fault => ({ kind: 'coupling changed', transformer, times: 2.5 }));
	const humps = found(...sweptByHand(withFaults(...near), { order: 1 }));
	expect(humps.curve?.outcome).toBe('alike');
	expect(humps.curve?.words).toMatch(/^2 humps, at 4\d\d\.\d and 4\d\d\.\d kc$/);
	const wet = [0, 1, 2, 3].map((winding): Fault => ({ kind: 'winding damped', winding, ohm: 60e3 }));
	const damped = found(...sweptByHand(withFaults(...wet), { order: 1 }));
	expect(damped.curve?.outcome).toBe('broad');
	const moved = [0, 1, 2, 3].map((winding): Fault => ({ kind: 'mica shifted', winding, farad: -2.2e-12 }));
	expect(found(...sweptByHand(withFaults(...moved), { order: 1 })).aim).toMatchObject({ outcome: 'off' });
});

// Two alike circuits beyond critical coupling, |(x - j g)^2 - K^2|: tops at plus and minus sqrt(K^2 - g^2), of one height.
test('humps that lie between readings are as high as the curve there', () => {
	const [couplingKc, halfWidthKc] = [7.07, 3];
	const levelDb = (offKc: number): number => {
		const [real, imaginary] = [offKc ** 2 - halfWidthKc ** 2 - couplingKc ** 2, 2 * offKc * halfWidthKc];
		return -20 * Math.log10(Math.hypot(real, imaginary));
	};
	// A reading each kilocycle but for those within two kilocycles of a top.
	const offsKc = Array.from({ length: 51 }, (_, k) => k - 25).filter((offKc) => Math.abs(Math.abs(offKc) - 6.4) > 2);
	const points = offsKc.map((offKc) => ({
		frequencyHz: 455e3 + 1e3 * offKc,
		levelDb: levelDb(offKc),
		uncertaintyDb: 0.05,
	}));
	const { curve } = found(
		{ kind: 'sweep begun', role: 'base' },
		{ kind: 'sweep file', sweep: 'e1', file: 'coarse.csv', points },
	);
	expect(curve).toMatchObject({ outcome: 'alike', words: expect.stringMatching(/^2 humps/) });
});

// What feeds back through the IF tube narrows the curve as its gain rises.
test('a curve that grows narrow as gain rises is feedback; without feedback it stays', () => {
	const pair = (feedback: readonly Fault[]) =>
		found(
			...sweptByHand(withFaults(...feedback), { order: 1, heldDbv: -80 }),
			...sweptByHand(withFaults(...feedback, { kind: 'weak IF tube', share: 0.1 }), {
				order: 53,
				role: 'second level',
				heldDbv: -50,
			}),
		)['curve-level'];
	expect(pair([{ kind: 'feedback', farad: 0.016e-12 }])?.outcome).toBe('narrow');
	expect(pair([{ kind: 'feedback', farad: 0.0001e-12 }])?.outcome).toBe('same');
});

test('a curve that no tuned circuits make is said so, an old generator dial leaves it open', () => {
	// The level jumps by two decibels in the middle of the sweep and stays there.
	let read = 0;
	const shown = (levelDb: number): number => levelDb + (read++ < 28 ? 0 : 2);
	expect(found(...sweptByHand(healthy, { order: 1, shown }))['curve-fit']?.outcome).toBe('refused');
	read = 0;
	const byDial = found(...sweptByHand(healthy, { order: 1, shown, instrument: 'typed' }));
	expect(byDial.aim).toBeUndefined();
});

test('a curve from before a turn of the strip counts no more', () => {
	const sweep = sweptByHand(healthy, { order: 1 });
	expect(found(...sweep).curve).toBeDefined();
	expect(found(...sweep, turned('if2-primary', 1)).curve).toBeUndefined();
});

// df/f = -dC/2C: at 455 kc and 110 mmf a kilocycle is 0.48 mmf.
test('an adjuster at its stop is found, with what is missing where a nudge has placed its circuit', () => {
	const off = withFaults({ kind: 'mica shifted', winding: 3, farad: -4e-12 });
	const nudged: BenchSet = { ...off, turns: { ...off.turns, 'if2-primary': (off.turns['if2-primary'] ?? 0) + 1 / 8 } };
	const last: BenchSet = {
		...nudged,
		turns: { ...nudged.turns, 'if1-primary': (nudged.turns['if1-primary'] ?? 0) - 1 / 8 },
	};
	const level = { value: -20, uncertainty: 0.1 };
	const stopped: Happening = {
		kind: 'adjusted',
		step: 'if',
		pass: 1,
		adjuster: 'if2-secondary',
		eighths: 2,
		atStop: true,
		beforeDb: level,
		afterDb: level,
		bestDb: level,
	};
	const turn = (adjuster: string, eighths: number): Happening => ({
		...stopped,
		adjuster,
		eighths,
		atStop: undefined,
	});
	const run = [
		stopped,
		...sweptByHand(off, { order: 2 }),
		turn('if2-primary', 1),
		...sweptByHand(nudged, { order: 55, role: 'nudge', adjuster: 'if2-primary' }),
		turn('if1-primary', -1),
		...sweptByHand(last, { order: 108, role: 'nudge', adjuster: 'if1-primary' }),
	];
	const { 'adjuster-end': end } = found(...run);
	expect(end).toMatchObject({ outcome: 'if-tight', foundIn: 'adjusters' });
	expect(end?.words).toMatch(/^T2 sec\. best at its tight stop/);
	expect(found(stopped, { ...stopped, eighths: -1, atStop: undefined })['adjuster-end']).toBeUndefined();
});

test('sensitivity, oscillator and image of the standard tests count, those after the work', async () => {
	const evidence = Object.fromEntries(runEvidence(await provedRun(), 0).map((one) => [one.test, one]));
	expect(evidence['three-points']).toMatchObject({ outcome: 'expected', foundIn: 'standard tests' });
	expect(evidence['oscillator-heard']?.outcome).toBe('everywhere');
	expect(evidence['image-heard']?.outcome).toBe('here');
});

test('a sound that was kept counts; a later one of the same kind replaces it', () => {
	const heard = (kind: 'hum' | 'crackle', generator: 'down' | 'carrier'): Happening => ({
		kind: 'heard',
		generator,
		source: 'sound input',
		lastedS: 6,
		heard: {
			kind,
			besideTone: null,
			levelDbfs: -30,
			clicksPerMinute: kind === 'crackle' ? 40 : 0,
			beat: null,
			hum: kind === 'hum' ? { mainsHz: 60, leads: 'twice' } : null,
			squealHz: null,
		},
	});
	const both = found(heard('hum', 'down'), heard('crackle', 'carrier'));
	expect(both.silence).toMatchObject({ outcome: 'hum', words: 'lines of 60 c', foundIn: 'listening' });
	expect(both['hum-pitch']?.outcome).toBe('twice');
	expect(both['crackle-steps']).toMatchObject({ outcome: 'jumps', words: '40 clicks a minute' });
	expect(found(heard('hum', 'down'), heard('crackle', 'down')).silence?.outcome).toBe('crackle');
});
