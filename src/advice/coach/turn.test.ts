import { expect, test } from 'vitest';
import { createRandom } from '#core/numeric/random.ts';
import {
	noTrouble,
	receiverCurve,
	scatterAt20Db,
	simulatedCheck,
	simulatedTurn,
	type TurnTrouble,
} from '../../../test/simulated-turn.ts';
import { disturbanceOf } from './disturbance.ts';
import { coachAdvice, pastPeak, type TurnReadings } from './turn.ts';
import { coachDetail, coachWords, untrustedWords } from './words.ts';

/** Closed form of a tuned circuit against its adjuster, x in half widths: -10 log10(1 + x^2). */
const circuitDb = (x: number) => -10 * Math.log10(1 + x * x);

const live = (levelsDb: readonly number[], more: Partial<TurnReadings> = {}): TurnReadings => ({
	levelsDb,
	aim: 'maximum',
	framesAveraged: 5,
	uncertaintyDb: scatterAt20Db,
	disturbance: null,
	...more,
});
const typed = (levelsDb: readonly number[], aim: TurnReadings['aim'] = 'maximum') =>
	coachAdvice({ levelsDb, aim, framesAveraged: 1, uncertaintyDb: 0.05, disturbance: null });

/** Where the coach first says "past" in a turn, in half widths from the peak. */
function toldAt(seed: number, trouble: TurnTrouble, isChecked: boolean): number | null {
	const { offDb, onDb } = simulatedCheck(7000 + seed, trouble);
	const disturbance = isChecked ? disturbanceOf(offDb, onDb) : null;
	const levelsDb: number[] = [];
	for (const { x, levelDb } of simulatedTurn(seed, trouble, receiverCurve(seed % 12))) {
		levelsDb.push(levelDb);
		if (['past', 'wrong way'].includes(coachAdvice(live(levelsDb, { disturbance })).kind)) return x;
	}
	return null;
}

test('in turns of a simulated receiver, by strokes and pauses, the coach speaks after the peak and not before, and soon', () => {
	for (let seed = 0; seed < 60; seed++) {
		const at = toldAt(seed, noTrouble, false);
		expect(at, `seed ${seed}`).not.toBe(null);
		expect(at as number).toBeGreaterThan(0);
		expect(at as number).toBeLessThan(0.5);
	}
});

test('a hand whose touch steps or shakes the level raises no false word once it was measured', () => {
	for (let seed = 0; seed < 40; seed++) {
		for (const trouble of [
			{ ...noTrouble, handDb: 0.6 },
			{ ...noTrouble, flutterDb: 0.4 },
		]) {
			const at = toldAt(100 + seed, trouble, true);
			expect(at, `seed ${seed}`).not.toBe(null);
			expect(at as number).toBeGreaterThan(0);
		}
	}
});

test('the same hand, not measured, would have been taken for a peak', () => {
	const early = Array.from({ length: 40 }, (_, seed) => toldAt(100 + seed, { ...noTrouble, handDb: 0.6 }, false));
	expect(early.filter((at) => at !== null && at < 0).length).toBeGreaterThan(5);
});

test('a steady level with its scatter brings no word but that nothing changes', () => {
	for (let seed = 0; seed < 50; seed++) {
		const { gaussian } = createRandom(1000 + seed);
		const levels: number[] = [];
		for (let frame = 0; frame < 100; frame++) {
			levels.push(-20 + scatterAt20Db * gaussian());
			expect(['past', 'wrong way']).not.toContain(coachAdvice(live(levels)).kind);
		}
		expect(coachAdvice(live(levels)).kind).toBe('nothing changes');
		expect(coachDetail(coachAdvice(live(levels)))).toContain('Is it the right adjuster');
	}
});

test('a hand that turns on past the peak and back is led back to the best and told to stop there', () => {
	const { gaussian } = createRandom(3);
	const path = [
		...Array.from({ length: 50 }, (_, index) => -1 + 0.03 * index),
		...Array.from({ length: 10 }, () => 0.5),
		...Array.from({ length: 25 }, (_, index) => 0.5 - 0.02 * index),
		...Array.from({ length: 30 }, () => 0),
	];
	const levels: number[] = [];
	const kinds = path.map((x) => {
		levels.push(circuitDb(x) + scatterAt20Db * gaussian());
		return coachAdvice(live(levels)).kind;
	});
	const order = kinds.filter((kind, index) => kind !== kinds[index - 1]);
	expect(order.indexOf('past')).toBeGreaterThan(order.indexOf('best'));
	expect(order.slice(order.indexOf('past'))).toEqual(['past', 'returning', 'back']);
	expect(coachWords(coachAdvice(live(levels)), 'maximum', 'T1')).toBe('Back at the best: stop and withdraw the tool.');
});

test('the distance past the peak is that of a resonance curve', () => {
	// Closed form: at x half widths a tuned circuit has fallen by 10 log10(1 + x^2).
	for (const x of [0.2, 0.5, 1, 2]) expect(pastPeak(-circuitDb(x), 0.03).value).toBeCloseTo(x, 9);
	// By hand: p = 2, dx = p / (2 x) ln(10) / 10 du = 0.2302585 x 0.1.
	expect(pastPeak(10 * Math.log10(2), 0.1).uncertainty).toBeCloseTo(0.02303, 5);
	const turn = typed([-3, -1, 0, circuitDb(0.8)]);
	expect(turn.pastHalfWidths?.value).toBeCloseTo(0.8, 6);
	expect(coachDetail(turn)).toContain('it lies 0.8 of half its width back');
	expect(coachDetail(typed([0, -1, -2]))).toBe(null);
});

test('a hand that rests on its way back is not turned round again', () => {
	const { gaussian } = createRandom(12);
	const rests = [0.7, 0.62, 0.55, 0.48, 0.4, 0.33].flatMap((x) => Array.from({ length: 20 }, () => x));
	const levels: number[] = [];
	for (let index = 0; index < 60; index++) levels.push(circuitDb(-1 + 0.03 * index) + scatterAt20Db * gaussian());
	expect(coachAdvice(live(levels)).kind).toBe('past');
	const kinds = rests.map((x) => {
		levels.push(circuitDb(x) + scatterAt20Db * gaussian());
		return coachAdvice(live(levels)).kind;
	});
	const order = kinds.filter((kind, index) => kind !== kinds[index - 1]);
	expect(order).toEqual(['past', 'returning']);
});

test('turned the wrong way from the first, the hand is sent past the place where it began, and not told to stop there', () => {
	const { gaussian } = createRandom(8);
	// From half a half width before the peak: 0.4 away from it, then through the beginning to 0.6 beyond the peak and back.
	const path = [
		...Array.from({ length: 20 }, (_, index) => -0.5 - 0.02 * index),
		...Array.from({ length: 10 }, () => -0.9),
		...Array.from({ length: 75 }, (_, index) => -0.9 + 0.02 * index),
		...Array.from({ length: 30 }, (_, index) => 0.6 - 0.02 * index),
		...Array.from({ length: 15 }, () => 0),
	];
	const levels: number[] = [];
	const kinds = path.map((x) => {
		levels.push(circuitDb(x) + scatterAt20Db * gaussian());
		return coachAdvice(live(levels)).kind;
	});
	const order = kinds.filter((kind, index) => kind !== kinds[index - 1] && kind !== 'near' && kind !== 'best');
	expect(order.filter((kind) => kind !== 'returning')).toEqual([
		'begin',
		'first',
		'wrong way',
		'start',
		'past',
		'back',
	]);
	expect(coachWords(coachAdvice(live(levels.slice(0, 28))), 'maximum', 'T1')).toBe('Falling: turn T1 the other way.');
});

test('an adjuster that stood at its peak falls on both sides and is brought back to where it began', () => {
	expect(['past', 'wrong way']).toContain(typed([0, -1]).kind);
	expect(typed([0, -1, 0]).kind).toBe('start');
	expect(typed([0, -1, 0, -1]).kind).toBe('past');
	expect(typed([0, -1, 0, -1, 0]).kind).toBe('back');
});

test('a wave trap is turned for the least, and its null may be below what can be read', () => {
	const levels = [0, -2, -5, -9, -6];
	expect(typed(levels.slice(0, 4), 'minimum').kind).toBe('best');
	expect(typed(levels, 'minimum')).toMatchObject({
		kind: 'past',
		offDb: 3,
		bestDb: -9,
		trend: 'rising',
		pastHalfWidths: null,
	});
	expect(untrustedWords('too weak', 'minimum', null)).toContain('Less than can be read');
	expect(untrustedWords('too weak', 'maximum', null)).toContain('more from the generator');
	// A turn that took the tone away is taken back; the generator is not to blame.
	const fallen = coachAdvice({
		levelsDb: [-30, -30, -54],
		aim: 'maximum',
		framesAveraged: 1,
		uncertaintyDb: 0.1,
		disturbance: null,
	});
	expect(untrustedWords('no tone', 'maximum', { name: 'T1', coach: fallen })).toContain('turn T1 back');
	const begun = coachAdvice({
		levelsDb: [-54],
		aim: 'maximum',
		framesAveraged: 1,
		uncertaintyDb: 0.1,
		disturbance: null,
	});
	expect(untrustedWords('no tone', 'maximum', { name: 'T1', coach: begun })).toContain('is the generator on');
});

test('readings too uncertain to tell a fall of a decibel are called so', () => {
	const { gaussian } = createRandom(9);
	const levels = Array.from({ length: 20 }, () => 0.6 * gaussian());
	expect(coachAdvice(live(levels, { uncertaintyDb: 0.6 })).kind).toBe('uncertain');
});
