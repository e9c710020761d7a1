import { expect, test } from 'vitest';
import type { DialGround } from '#core/estimate/dial-model.ts';
import { createRandom } from '#core/numeric/random.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { type Disturbance, DisturbedSet, usualDisturbance } from '../../../test/disturbed-set.ts';
import { dialAnswer, readingFault } from './dial-answer.ts';
import { dialCertainty, unreadMarksHz } from './dial-certainty.ts';
import { actWords, remarkWords } from './dial-words.ts';

const band = { lowHz: 540e3, highHz: 1620e3 };
const marksHz = [550, 650, 800, 1000, 1200, 1400, 1600].map((kc) => kc * 1e3);
const ground: DialGround = {
	band,
	ifHz: 455e3,
	side: 'above',
	pointsHz: [600e3, 1000e3, 1400e3],
	network: 'gang',
	lowEnd: 'padder',
	hasCutPlates: false,
	readingM: 1e-4,
	travelM: 0.122,
};
const keys = { trimmer: 'trimmerF', padder: 'padderShare', slug: 'coilShare' } as const;

/** Reads a set, does what is said, and gives back the worst error before, foretold and after. */
function worked(off: Disturbance, given: DialGround, seed: number) {
	const set = new DisturbedSet(tm517, off);
	const random = createRandom(seed);
	const miss = (): number => given.readingM * random.gaussian();
	const points = marksHz.map((dialHz) => ({
		dialHz,
		heardHz: set.heardHz(dialHz, miss()),
		heardUncertaintyHz: 200,
		pass: 0,
	}));
	const before = set.worstHz();
	const { plan } = dialAnswer(given, points);
	for (const [place, act] of plan.acts.entries()) {
		if (act.adjuster === 'pointer') continue;
		const missM = miss();
		const wantedHz = place === 0 ? set.heardHz(act.sitAtDialHz, missM) + act.moveByHz : act.bringInHz;
		set.bringIn(keys[act.adjuster], act.sitAtDialHz, wantedHz, missM);
	}
	return { before, foretold: plan.predictedWorstHz, after: set.worstHz(), acts: plan.acts };
}

test('a dial that is tens of kilocycles off is brought to within a few in two acts, in bench order', () => {
	for (const [lowEnd, first] of [
		['padder', 'trimmer'],
		['slug', 'slug'],
	] as const) {
		for (const seed of [1, 2, 3, 4, 5]) {
			const off = usualDisturbance(createRandom(seed));
			const { before, foretold, after, acts } = worked(off, { ...ground, lowEnd }, seed);
			expect(acts.length).toBeLessThanOrEqual(2);
			if (acts.length === 2) expect(acts[0]?.adjuster).toBe(first);
			expect(after).toBeLessThan(Math.max(0.35 * before, 10e3));
			expect(after).toBeLessThan(foretold.value + 5 * (foretold.uncertainty as number));
		}
	}
});

test('readings without fault say that nothing is worth turning', () => {
	const points = marksHz.map((dialHz) => ({ dialHz, heardHz: dialHz, heardUncertaintyHz: 200, pass: 0 }));
	const answer = dialAnswer({ ...ground, readingM: 3e-4 }, points);
	expect(answer.plan.acts).toEqual([]);
	expect(remarkWords(answer).join(' ')).toContain('Nothing that can be turned');
});

test('a set without an adjuster at the low end gets the best of pointer, trimmer and IF', () => {
	const set = new DisturbedSet(tm517, { ...usualDisturbance(createRandom(3)), padderShare: 0.05 });
	const points = marksHz.map((dialHz) => ({ dialHz, heardHz: set.heardHz(dialHz), heardUncertaintyHz: 200, pass: 0 }));
	const answer = dialAnswer({ ...ground, lowEnd: 'none' }, points);
	expect(answer.plan.acts.every(({ adjuster }) => adjuster === 'pointer' || adjuster === 'trimmer')).toBe(true);
	expect(answer.plan.predictedWorstHz.value).toBeLessThan(answer.plan.worstNowHz.value);
	expect(answer.bestIf?.worstHz.value).toBeLessThan(answer.plan.predictedWorstHz.value + 1);
	expect(actWords(answer.plan.acts[0] as never, true)).toMatch(/Sit at|Tune in/);
});

test('repeats of a mark are averaged, and their scatter counts when it is larger than what was stated', () => {
	const heard = [998e3, 1002e3, 1000e3, 1004e3];
	const points = [
		...heard.map((heardHz) => ({ dialHz: 1000e3, heardHz, heardUncertaintyHz: 200, pass: 0 })),
		{ dialHz: 600e3, heardHz: 600e3, heardUncertaintyHz: 200, pass: 0 },
	];
	const { errors } = dialAnswer({ ...ground, readingM: 1e-6 }, points);
	const mark = errors.find(({ dialHz }) => dialHz === 1000e3);
	expect(mark?.errorHz).toBeCloseTo(1000, 6);
	// Standard deviation 2,582 c by its definition, of the mean of four half as much.
	expect(mark?.uncertaintyHz).toBeCloseTo(1291, 0);
});

// [kennedy] ex. 7.1: with an IF of 455 kc the image of 1,000 kc is 1,910 kc.
test('an image and a reading that cannot be are refused', () => {
	expect(readingFault(ground, [{ dialHz: 1000e3, heardHz: 1910e3 }])?.words).toContain('image');
	expect(
		readingFault(ground, [
			{ dialHz: 1000e3, heardHz: 1000e3 },
			{ dialHz: 2500e3, heardHz: 2500e3 },
		])?.place,
	).toBe(1);
	expect(readingFault(ground, [{ dialHz: 600e3, heardHz: 400e3 }])?.words).toContain('a quarter');
	expect(readingFault(ground, [{ dialHz: 1400e3, heardHz: 1360e3 }])).toBeNull();
});

test('repeats that scatter more than was stated are reckoned with, and those that keep to it are not', () => {
	const set = new DisturbedSet(tm517, { ...usualDisturbance(createRandom(3)) });
	const read = (missM: number) =>
		[600e3, 1000e3, 1400e3].flatMap((dialHz) =>
			[-1, 0, 1].map((way) => ({ dialHz, heardHz: set.heardHz(dialHz, way * missM), heardUncertaintyHz: 50, pass: 0 })),
		);
	expect(dialAnswer(ground, read(0.1e-3)).scatterM).toBeNull();
	const wide = dialAnswer(ground, read(0.5e-3));
	// Three readings at -0.5, 0 and 0.5 mm have a standard deviation of 0.5 mm.
	expect((wide.scatterM ?? 0) * 1e3).toBeGreaterThan(0.4);
	expect((wide.scatterM ?? 0) * 1e3).toBeLessThan(0.6);
	expect(wide.plan.predictedWorstHz.value).toBeGreaterThan(
		dialAnswer(ground, read(0.1e-3)).plan.predictedWorstHz.value,
	);
	expect(wide.errors[2]?.scatterHz).toBeGreaterThan(3e3);
});

test('more marks are said to add certainty, and a reading between two marks serves the nearer', () => {
	const set = new DisturbedSet(tm517, usualDisturbance(createRandom(3)));
	const points = [600e3, 1000e3, 1400e3].map((dialHz) => ({
		dialHz,
		heardHz: set.heardHz(dialHz),
		heardUncertaintyHz: 200,
		pass: 0,
	}));
	const given = { ...ground, readingM: 3e-4 };
	const { nowHz, thenHz } = dialCertainty(dialAnswer(given, points), points, [550e3, 650e3, 800e3, 1200e3, 1600e3]);
	expect(thenHz).toBeLessThan(0.8 * nowHz);
	expect(unreadMarksHz([600e3, 1000e3, 1400e3], [985e3])).toEqual([600e3, 1400e3]);
});

test('on a band that shares its pointer with others the pointer is left alone', () => {
	const set = new DisturbedSet(tm517, { ...usualDisturbance(createRandom(3)), pointerM: 2e-3 });
	const points = marksHz.map((dialHz) => ({ dialHz, heardHz: set.heardHz(dialHz), heardUncertaintyHz: 200, pass: 0 }));
	const { plan } = dialAnswer({ ...ground, lowEnd: 'none', isPointerShared: true }, points);
	expect(plan.acts.map(({ adjuster }) => adjuster)).toEqual(['trimmer']);
});
