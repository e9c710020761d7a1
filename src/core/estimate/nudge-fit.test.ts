import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import {
	asProposed,
	drawnStrip,
	evenlySpaced,
	nudgedStrip,
	randomStrip,
	readings,
	trueLevelDb,
	wholeSweeps,
} from '../../../test/random-strip.ts';
import { adjusterVerdicts } from './adjuster-verdict.ts';
import { isRefused } from './fit-gate.ts';
import { fitNudges } from './nudge-fit.ts';
import { fitPoles } from './pole-fit.ts';

const ifHz = 455e3;
const conditions = { ifHz, toneHz: 400, meterDb: 0.1, generatorHz: 0 };

// Strips and readings are drawn by seeded chance; the truth is known because it was drawn. Frequencies must lie within four of their own standard uncertainties, and half a kilocycle.
test('four nudges with nine readings each tell every circuit, its side and its nudge', () => {
	for (const seed of [21, 22, 23]) {
		const { base, nudges, turnsHz, endsHz } = nudgedStrip(seed, [0, 1, 2, 3], asProposed, 0.1, 1);
		const strip = fitNudges(fitPoles(base, conditions), base, nudges, conditions);
		const verdicts = adjusterVerdicts(strip, nudges, ifHz);
		expect(isRefused(strip.chiSquaredPerDegree, strip.degrees)).toBe(false);
		expect(verdicts.map(({ name }) => name)).toEqual(nudges.map(({ name }) => name));
		for (const [place, { frequencyHz, nudgeHz }] of verdicts.entries()) {
			const errorHz = Math.abs(frequencyHz.value - (endsHz[place] as number));
			expect(errorHz).toBeLessThan(Math.min(4 * (frequencyHz.uncertainty ?? 0), 1000));
			expect(Math.sign(nudgeHz ?? 0)).toBe(Math.sign(turnsHz[place] as number));
		}
		// The first and second adjuster share a can, the third and fourth the other.
		const cans = verdicts.map(({ circuit }) => circuit >> 1);
		expect(cans[0]).toBe(cans[1]);
		expect(cans[2]).toBe(cans[3]);
		expect(cans[0]).not.toBe(cans[2]);
	}
});

// Where feedback is strong the best strip without it leaves a misfit that looks like a noise floor high up: of 250 strips from 51000 on the first three were taken for others. The last has a misfit within its scatter only with far more feedback than a tube has.
test('strong feedback is told from a noise floor, and which winding is beside the tube', () => {
	for (const seed of [51063, 51197, 51202, 61200]) {
		const { base, nudges, endsHz } = nudgedStrip(seed, [0, 1, 2, 3], asProposed, 0.1, 1);
		const strip = fitNudges(fitPoles(base, conditions), base, nudges, conditions);
		expect(isRefused(strip.chiSquaredPerDegree, strip.degrees)).toBe(false);
		expect(strip.others).toEqual([]);
		for (const [place, { frequencyHz }] of adjusterVerdicts(strip, nudges, ifHz).entries())
			expect(Math.abs(frequencyHz.value - (endsHz[place] as number))).toBeLessThan(
				Math.min(4 * (frequencyHz.uncertainty ?? 0), 1000),
			);
	}
});

test('one nudge a can tells the partners too', () => {
	for (const seed of [31, 32]) {
		const { base, nudges, endsHz } = nudgedStrip(seed, [1, 2], wholeSweeps, 0.1, 1);
		const strip = fitNudges(fitPoles(base, conditions), base, nudges, conditions);
		const verdicts = adjusterVerdicts(strip, nudges, ifHz);
		expect(verdicts.map(({ name }) => name)).toEqual([
			'adjuster 1',
			'adjuster 2',
			'partner of adjuster 1',
			'partner of adjuster 2',
		]);
		for (const [place, circuit] of [1, 2, 0, 3].entries()) {
			const { frequencyHz } = verdicts[place] as (typeof verdicts)[number];
			expect(Math.abs(frequencyHz.value - (endsHz[circuit] as number))).toBeLessThan(
				Math.max(4 * (frequencyHz.uncertainty ?? 0), 300),
			);
		}
	}
});

test('a generator that is off its mark from point to point is found out by chi-squared, and forgiven when it was said', () => {
	const random = createRandom(5);
	const strip = randomStrip(random);
	const level = trueLevelDb(strip);
	const frequenciesHz = evenlySpaced(61, 30e3);
	const topDb = Math.max(...frequenciesHz.map(level));
	const points = frequenciesHz.map((frequencyHz) => {
		const [reading] = readings(random, level, [frequencyHz + 300 * random.gaussian()], 0.1, topDb - 50);
		return { frequencyHz, levelDb: reading?.levelDb ?? 0, uncertaintyDb: null };
	});
	const unsaid = fitPoles(points, conditions);
	expect(isRefused(unsaid.chiSquaredPerDegree, unsaid.degrees)).toBe(true);
	const said = fitPoles(points, { ...conditions, generatorHz: 300 });
	expect(isRefused(said.chiSquaredPerDegree, said.degrees)).toBe(false);
});

// The truth is drawn; what is measured is the error of all circuits after two settings whose one reading each was kept, root mean square.
test('what is read after a setting stays in the fit, and a sweep without a turn with it', () => {
	let squares = 0;
	const seeds = [61, 62, 63];
	for (const seed of seeds) {
		const { base, nudges, endsHz } = nudgedStrip(seed, [0, 1, 2, 3], asProposed, 0.1, 0);
		const random = createRandom(seed + 100);
		const strip = drawnStrip(createRandom(seed), 0);
		for (const circuit of [0, 1, 2, 3]) strip[circuit] = (endsHz[circuit] as number) / ifHz - 1;
		const topDb = Math.max(...base.map(({ levelDb }) => levelDb));
		const read = (frequenciesHz: readonly number[]) =>
			readings(random, trueLevelDb([...strip]), frequenciesHz, 0.1, topDb - 50);
		const after = [0, 2].map((circuit) => {
			const aimedHz = -ifHz * (strip[circuit] as number);
			// The hand stopped 400 c from where it was meant to.
			strip[circuit] = 400 / ifHz;
			return { name: `adjuster ${circuit}`, points: read([ifHz - 6e3]), aimedHz };
		});
		const all = [...nudges, ...after, { name: null, points: read(evenlySpaced(31, 20e3)) }];
		const found = fitNudges(fitPoles(base, conditions), base, all, conditions);
		expect(isRefused(found.chiSquaredPerDegree, found.degrees)).toBe(false);
		for (const [circuit, { frequencyHz, nudgeHz }] of adjusterVerdicts(found, all, ifHz).entries()) {
			const errorHz = frequencyHz.value - ifHz * (1 + (strip[circuit] as number));
			expect(Math.abs(errorHz)).toBeLessThan(Math.max(4 * (frequencyHz.uncertainty ?? 0), 300));
			expect(nudgeHz).not.toBeNull();
			squares += errorHz ** 2 / (4 * seeds.length);
		}
	}
	expect(Math.sqrt(squares)).toBeLessThan(300);
});
