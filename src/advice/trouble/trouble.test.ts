import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type CauseId, causes } from './causes.ts';
import { findingOf } from './finding.ts';
import { proposedTests } from './next-test.ts';
import { outcomeOf, outcomeShares, posterior, priorOf, rankedCauses, type TestAnswer } from './ranking.ts';
import { type TestId, tests } from './tests.ts';
import { isTroubleId, type TroubleId, troubleAreas, troubles, troublesFor } from './troubles.ts';

const troubleIds = Object.keys(troubles) as TroubleId[];
const testIds = Object.keys(tests) as TestId[];
const causeIds = Object.keys(causes) as CauseId[];

test('the shares of every test add up to one under every cause', () => {
	for (const id of testIds) {
		const { outcomes, otherwise, rows, typed } = tests[id];
		for (const shares of [otherwise, ...rows.map((row) => row.shares)]) {
			expect(shares, id).toHaveLength(outcomes.length);
			expect(
				shares.reduce((sum, share) => sum + share, 0),
				id,
			).toBeCloseTo(1, 9);
		}
		for (const cause of causeIds) {
			expect(rows.filter((row) => row.causes.includes(cause)).length, `${id}, ${cause}`).toBeLessThanOrEqual(1);
			for (const share of outcomeShares(tests[id], cause)) expect(share).toBeGreaterThan(0);
		}
		if (typed) expect(outcomes).toHaveLength(typed.bounds.length + 1);
	}
});

test('every cause belongs to a trouble, every trouble has a test, sources that exist and a heading', () => {
	const met = new Set(troubleIds.flatMap((id) => Object.keys(troubles[id].causes)));
	expect(causeIds.filter((id) => !met.has(id))).toEqual([]);
	const sources = readFileSync('docs/sources.md', 'utf8');
	for (const id of troubleIds) {
		expect(proposedTests(id, []).length, id).toBeGreaterThan(0);
		expect(troubleAreas).toContain(troubles[id].area);
		for (const key of troubles[id].sources) expect(sources).toContain(`[${key}]`);
	}
});

// [common-practice] SAFETY of the trade: a lead is joined to the dead set only, and no probe is put on the circuit that is being set.
test('no test asks for a live hand or for a probe on the circuit that is being set', () => {
	for (const id of testIds) {
		const { words, how, danger } = tests[id];
		if (danger === 'clipped') expect(`${words} ${how}`, id).toMatch(/unplugged|power off/i);
		expect(`${words} ${how}`, id).not.toMatch(/probe|scope|on the plate|at the plate/i);
	}
});

/** Causes that one may be left with: those that no test of the program parts from the searched one. */
function parted(trouble: TroubleId, cause: CauseId): boolean {
	// The person answers every test that is asked as the cause mostly answers it.
	let answers: readonly TestAnswer[] = [];
	for (let step = 0; step < 12; step++) {
		const { nextTest } = findingOf(trouble, answers);
		if (nextTest === null) break;
		const shares = outcomeShares(tests[nextTest.test], cause);
		const at = shares.indexOf(Math.max(...shares));
		answers = [...answers, { test: nextTest.test, outcome: tests[nextTest.test].outcomes[at]?.id ?? '' }];
	}
	const ranked = rankedCauses(trouble, answers);
	const place = ranked.findIndex((one) => one.cause === cause);
	return place === 0 || (place < 3 && answers.length > 0);
}

test('whoever answers as a cause would show finds it among the first three, in every trouble', () => {
	const lost = troubleIds.flatMap((trouble) =>
		priorOf(trouble)
			.ids.filter((cause) => !parted(trouble, cause))
			.map((cause) => `${trouble}: ${cause}`),
	);
	expect(lost).toEqual([]);
});

// Bayes' rule by enumeration: weight of a cause is its share times what it makes of each answer.
test('probabilities follow Bayes\u2019 rule and do not hang on the order of the answers', () => {
	const answers: TestAnswer[] = [
		{ test: 'hum-pitch', outcome: 'mains' },
		{ test: 'volume-down', outcome: 'stays' },
	];
	const { ids, shares } = priorOf('hum');
	const weights = ids.map(
		(id, k) =>
			(shares[k] as number) *
			(outcomeShares(tests['hum-pitch'], id)[0] as number) *
			(outcomeShares(tests['volume-down'], id)[1] as number),
	);
	const whole = weights.reduce((sum, one) => sum + one, 0);
	const found = posterior('hum', answers);
	for (const [k, weight] of weights.entries()) expect(found[k]).toBeCloseTo(weight / whole, 12);
	for (const [k, chance] of posterior('hum', answers.toReversed()).entries())
		expect(chance).toBeCloseTo(found[k] as number, 12);
	const [first] = rankedCauses('hum', answers);
	expect(first?.evidence.every(({ times }) => times > 0)).toBe(true);
});

test('a later answer to the same test replaces the earlier one, and an unknown one counts for nothing', () => {
	const once = posterior('crackle', [{ test: 'volume-down', outcome: 'goes' }]);
	expect(
		posterior('crackle', [
			{ test: 'volume-down', outcome: 'stays' },
			{ test: 'volume-down', outcome: 'goes' },
		]),
	).toEqual(once);
	expect(posterior('crackle', [{ test: 'volume-down', outcome: 'perhaps' }])).toEqual(posterior('crackle', []));
});

test('a typed reading becomes an outcome by its bounds; without a unit it is refused', () => {
	expect(outcomeOf('six-db', '2.5 dB')).toEqual({ ok: true, value: 'less' });
	expect(outcomeOf('six-db', '6 dB')).toEqual({ ok: true, value: 'follows' });
	expect(outcomeOf('chassis-volts', '110 V')).toEqual({ ok: true, value: 'mains' });
	expect(outcomeOf('six-db', '6').ok).toBe(false);
	expect(outcomeOf('silence', 'loud').ok).toBe(false);
});

test('a leak of the supply is handed to a licensed person, and no further test is asked for', () => {
	const finding = findingOf('hot-chassis', [
		{ test: 'plug-ohms', outcome: 'leak' },
		{ test: 'volts-each-way', outcome: 'both' },
	]);
	expect(finding.handOver).toMatch(/allowed to mend/);
	expect(finding.nextTest).toBeNull();
});

test('troubles are found by the words of the trade', () => {
	expect(troublesFor('silver mica')).toEqual(['crackle']);
	expect(troublesFor('end-of-travel')).toEqual(['end-of-travel']);
	expect(troublesFor('hot chassis')).toEqual(['hot-chassis']);
	expect(troublesFor('marmalade')).toEqual([]);
	expect(isTroubleId('toString')).toBe(false);
});

test('a settled finding says what would turn it over', () => {
	const finding = findingOf('weak', [
		{ test: 'three-points', outcome: 'alike' },
		{ test: 'converter-grid', outcome: 'weak' },
		{ test: 'if-grid', outcome: 'weak' },
		{ test: 'audio-tone', outcome: 'expected' },
		{ test: 'b-plus', outcome: 'chart' },
		{ test: 'if-tube-swap', outcome: 'cured' },
	]);
	expect(finding.words).toBe('The IF tube is weak.');
	expect(finding.isSettled).toBe(true);
	expect(finding.wouldChange.length).toBeGreaterThan(0);
});

// The rule of the bench: the gate before the first hook-up closes above 5 V between chassis and earth.
test('a voltage from chassis to earth that closes the gate is never called free of the mains', () => {
	expect(outcomeOf('chassis-volts', '4.9 V')).toEqual({ ok: true, value: 'nought' });
	expect(outcomeOf('chassis-volts', '8 V')).toEqual({ ok: true, value: 'some' });
});

// Common practice of the trade: what is clipped where a plate circuit may be met is rated for 630 V DC or more.
test('every capacitor that is clipped into a live set is rated at least 630 V', () => {
	for (const id of testIds) {
		const { how, danger } = tests[id];
		if (danger === 'clipped' && /mfd|capacitor/.test(how)) expect(how, id).toMatch(/at least 630 V|630 V or more/);
	}
});
