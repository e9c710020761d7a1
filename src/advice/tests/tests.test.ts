import { expect, test } from 'vitest';
import { tuningAtMark, valuesAt } from '#core/receiver/bench-set.ts';
import { tm517 } from '#core/receiver/designs/tm-517.ts';
import { factoryTurns } from '#core/receiver/factory.ts';
import { receivedHz } from '#core/receiver/sensitivity.ts';
import { testFigures } from '#core/receiver/test-figures.ts';
import { tamperedSet } from '#core/receiver/truth.ts';
import { decibelsOf } from '#record/level-unit.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { testReadingOf } from '#record/test-words.ts';
import { TestHand } from '#rehearsal/test-hand.ts';
import { exampleCard, factsOf } from '../../../test/example-set.ts';
import { comparedFigures } from '../../../test/test-truth.ts';
import { knownGenerators } from '../generator-place.ts';
import { measuredGenerators } from '../marked-level.ts';
import { dialId, imageAsk, sensitivityAsk, testAsks } from './asks.ts';
import { differenceWords, findingWords } from './figure-words.ts';
import { ReadingBook } from './finding.ts';
import { usualGear } from './gear.ts';
import { testMarks, testsUnfit } from './marks.ts';
import { standardTests } from './procedures.ts';
import { proofOf } from './proof.ts';

const facts = factsOf(exampleCard());
const gear = usualGear(facts, 'before');

/** Readings as typed, by what was asked. */
function typed(own: TestGear, lines: Readonly<Record<string, string>>): TestReading[] {
	const readings: TestReading[] = [];
	for (const [id, words] of Object.entries(lines)) {
		const ask = testAsks(facts, new ReadingBook(readings, own)).find((one) => one.id === id);
		if (!ask) throw new Error(`no reading ${id}`);
		const reading = testReadingOf({ moment: own.moment, test: ask.test, ask: id, quantity: ask.quantity }, words);
		if (!reading.ok) throw new Error(reading.words);
		readings.push(reading.value);
	}
	return readings;
}

test('figures found by a hand with faulty gear agree with the circuits of the set within two standard deviations', () => {
	const marks = testMarks(facts);
	const compared = [11, 12].flatMap((seed) => {
		const set = tamperedSet(tm517, seed);
		const onBench = (dialHz: number, volume: number) => valuesAt(set, tuningAtMark(set, dialHz), volume);
		const readings = [...new TestHand(onBench, facts, gear, seed).readings()];
		const { before } = proofOf(facts, [gear], readings);
		const truth = testFigures(onBench, [marks.lowHz, marks.middleHz, marks.highHz], gear.channelHz);
		return comparedFigures(before?.findings ?? [], truth, marks);
	});
	expect(compared).toHaveLength(2 * 22);
	expect(compared.filter(({ isWithin }) => isWithin === null)).toEqual([]);
	// Nineteen in twenty: of 44 figures at most two may lie outside.
	expect(compared.filter(({ isWithin }) => isWithin !== true).length).toBeLessThanOrEqual(2);
});

test('a dial error is read with the generator\u2019s own correction, and is known no better than that', () => {
	const { lowHz } = testMarks(facts);
	const own = { ...gear, generator: 'old one' };
	const readings = typed(own, { [sensitivityAsk(lowHz)]: `50 uV at ${lowHz / 1e3 + 5} kc` });
	const checks = [0.9, 1, 1.1].map((times) => ({
		atMs: 0,
		check: {
			kind: 'generator check' as const,
			words: 'as typed',
			readsHz: times * lowHz + 3e3,
			trueHz: times * lowHz,
			uncertaintyHz: 100,
			generator: 'old one',
		},
	}));
	const errorOf = (name: string) =>
		proofOf(facts, [{ ...own, generator: name }], readings, {
			dials: knownGenerators(checks, 0),
			levels: [],
		}).before?.findings.find(({ test: of }) => of === 'dial')?.value;
	const [raw, corrected] = [errorOf('another'), errorOf('old one')];
	expect(raw?.value).toBeCloseTo(5e3, -1);
	expect(Math.abs((corrected?.value ?? 0) - 2e3)).toBeLessThan(100);
	expect(corrected?.uncertainty).toBeGreaterThan(raw?.uncertainty ?? Number.POSITIVE_INFINITY);
	// What was read stays as it was read.
	expect(readings[0]?.generatorHz).toBe(lowHz + 5e3);
});

test('inputs by an old attenuator are read with its table, and are known as well as that', () => {
	const { middleHz } = testMarks(facts);
	const own = { ...gear, generator: 'old one', attenuatorLimitDb: 3 };
	// The place of 1 mV gives 2 dB less than ten times that of 100 uV.
	const place = (volts: number, readDb: number) => ({
		atMs: 0,
		trial: {
			kind: 'generator trial' as const,
			generator: 'old one',
			read: {
				about: 'attenuator' as const,
				markedDb: decibelsOf(volts),
				markedIn: 'volts' as const,
				readDb: { value: readDb, uncertainty: 0.1 },
			},
		},
	});
	const levels = measuredGenerators([place(100e-6, -40), place(1e-3, -22)]);
	const readings = typed(own, {
		[sensitivityAsk(middleHz)]: `100 uV at ${middleHz / 1e3} kc`,
		[imageAsk(middleHz)]: '1.00 mV',
	});
	const imageOf = (of: readonly TestReading[], known = levels) =>
		proofOf(facts, [own], of, { dials: [], levels: known }).before?.findings.find(({ test }) => test === 'rejection')
			?.value;
	expect(imageOf(readings, [])?.value).toBeCloseTo(20, 6);
	const corrected = imageOf(readings);
	expect(corrected?.value).toBeCloseTo(18, 6);
	expect(corrected?.uncertainty).toBeLessThan(imageOf(readings, [])?.uncertainty ?? 0);
	// A reading that was kept with another generator is that one's.
	expect(imageOf(readings.map((one) => ({ ...one, markedBy: 'the good one' })))?.value).toBeCloseTo(20, 6);
	const proof = proofOf(facts, [own], readings, { dials: [], levels });
	expect(proof.before?.corrected?.name).toBe('old one');
});

test('10 mW with the tone and 1 mW without it are 10 dB', () => {
	// The ratio by which a receiver specification states its limit [mil-r-13947b]: 10 and 1 mW, here in 3.2 ohms.
	const readings = typed(gear, { 'tone on': '178.9 mV', 'tone off': '56.57 mV' });
	const finding = proofOf(facts, [gear], readings).before?.findings[0];
	expect(finding?.value?.value).toBeCloseTo(10, 2);
});

const read = (own: TestGear, words: string) => typed(own, { 'sensitivity 1000 kc': words });

test('the same gear before and after: its own fault falls out of the difference', () => {
	const after = { ...gear, moment: 'after' } as const;
	const readings = [...read(gear, '100 uV at 1000 kc'), ...read(after, '20 uV at 1000 kc')];
	const proof = proofOf(facts, [gear, after], readings);
	const [difference] = proof.differences;
	// 20 log 5 = 13.98 dB less input for the same output.
	expect(difference?.change?.value).toBeCloseTo(-13.979, 2);
	expect(difference?.standing).toBe('better');
	expect(differenceWords(difference as NonNullable<typeof difference>)).toMatch(/^14(\.\d)? ± \d(\.\d)? dB better$/);
	const other = proofOf(facts, [gear, { ...after, meter: 'another' }], readings).differences[0];
	// Another generator within 2 dB, both ends: 2/sqrt 3 each, root of the sum of squares 1.63 dB more.
	expect(other?.change?.uncertainty).toBeGreaterThan(Math.hypot(difference?.change?.uncertainty ?? 0, 1.6));
});

test('a small step is no change that can be told', () => {
	const after = { ...gear, moment: 'after' } as const;
	const readings = [...read(gear, '21 uV at 1000 kc'), ...read(after, '20 uV at 1000 kc')];
	expect(proofOf(facts, [gear, after], readings).differences[0]?.standing).toBe('no change that can be told');
});

test('a generator without known volts gives relative figures, and no verdict on them', () => {
	const relative = { ...gear, generatorLimitDb: null };
	const { before } = proofOf(facts, [relative], read(relative, '21 uV at 1000 kc'));
	expect(before?.findings[0] && findingWords(before.findings[0])).toContain('on this generator');
	expect(before?.verdicts.filter(({ finding }) => finding.test === 'sensitivity')).toEqual([]);
	expect(standardTests(facts, relative, [])[0]?.cannot[0]).toContain('relative');
});

test('what the gear cannot read is left out and said', () => {
	const distortion = standardTests(facts, gear, []).find(({ name }) => name === 'distortion');
	expect(distortion?.asks).toEqual([]);
	expect(distortion?.cannot[0]).toContain('left out');
});

test('the shape of the loss along the dial is said', () => {
	const flat = typed(gear, {
		'sensitivity 1000 kc': '150 uV',
		'sensitivity 600 kc': '120 uV',
		'sensitivity 1400 kc': '120 uV',
	});
	expect(proofOf(facts, [gear], flat).before?.loss).toContain('alike along the dial');
	const high = typed(gear, {
		'sensitivity 1000 kc': '40 uV',
		'sensitivity 600 kc': '12 uV',
		'sensitivity 1400 kc': '200 uV',
	});
	expect(proofOf(facts, [gear], high).before?.loss).toContain('high end');
});

test('no more digits are said than are known', () => {
	const finding = {
		id: 'x',
		test: 'sensitivity',
		label: 'x',
		unit: 'V',
		budget: [],
		better: 'less',
		isRelative: false,
		remarks: [],
	} as const;
	expect(findingWords({ ...finding, value: { value: 37.4e-6, uncertainty: 4.3e-6 } })).toBe('37 ± 9 uV');
	expect(findingWords({ ...finding, value: { value: 37.44e-6, uncertainty: 0.06e-6 } })).toBe('37.44 ± 0.12 uV');
	expect(findingWords({ ...finding, value: { value: 374e-6, uncertainty: 30e-6 } })).toBe('370 ± 60 uV');
	expect(findingWords({ ...finding, value: null })).toContain('not reached');
});

test('a loop is coupled through the air: its figures are relative; FM and sets without IF are refused', () => {
	const loop = { ...facts, antenna: 'loop' } as const;
	const { before } = proofOf(loop, [gear], read(gear, '21 uV at 1000 kc'));
	expect(before?.findings[0]?.isRelative).toBe(true);
	expect(before?.verdicts.filter(({ finding }) => finding.test === 'sensitivity')).toEqual([]);
	const lines = {
		'sensitivity 1000 kc': '21 uV at 1000 kc',
		'converter grid at dial': '90 uV',
		'converter grid at IF': '80 uV',
	};
	const gains = (own: typeof facts) =>
		proofOf(own, [gear], typed(gear, lines)).before?.findings.filter(({ test: of }) => of === 'stage gain');
	expect(gains(loop)?.map(({ isRelative }) => isRelative)).toEqual([true, false]);
	expect(gains(facts)?.map(({ isRelative }) => isRelative)).toEqual([false, false]);
	expect(testsUnfit(facts)).toBeNull();
	expect(testsUnfit({ ...facts, card: { ...facts.card, circuit: 'TRF' } })).toContain('superhets');
	const fm = (facts.card.bands ?? []).map((band) => ({ ...band, modulation: 'FM' as const }));
	expect(testsUnfit({ ...facts, card: { ...facts.card, bands: fm } })).toContain('amplitude modulation');
});

// The image of an oscillator below the signal lies two IFs below the dial: 600 kc less 910 kc is no frequency.
test('no image is asked for where none can be', () => {
	const below = factsOf({ ...facts.card, bands: facts.card.bands?.map((band) => ({ ...band, oscillator: 'below' })) });
	const images = testAsks(below, new ReadingBook([], gear)).filter(({ id }) => id.startsWith('image'));
	expect(images.map(({ dialHz }) => dialHz)).toEqual([1000e3, 1400e3]);
	for (const { words } of images) expect(words).not.toMatch(/near -/);
});

// The gang of the demo set itself, turned by a hundredth of a millimetre about each mark: 3.4 kc to the millimetre at 600 kc, 19 at 1,400.
test('what a pointer a little off its mark does to the dial is reckoned where it stands, not by the mean of the scale', () => {
	const set = { design: tm517, faults: [], turns: factoryTurns(tm517), pointerSlipM: 0 };
	const readings = typed(gear, {
		'sensitivity 1000 kc': '20 uV at 1000 kc',
		'sensitivity 600 kc': '20 uV at 600 kc',
		'sensitivity 1400 kc': '20 uV at 1400 kc',
	});
	const { before } = proofOf(facts, [gear], readings);
	for (const markHz of [600e3, 1400e3]) {
		const heardHz = (pointerSlipM: number) => receivedHz({ ...set, pointerSlipM }, markHz);
		const movedHz = Math.abs(heardHz(1e-4) - heardHz(-1e-4)) * (gear.pointerM / 2e-4);
		const budget = before?.findings.find(({ id }) => id === dialId(markHz))?.budget;
		const pointerHz = budget?.find(({ from }) => from === 'setting the pointer')?.size ?? 0;
		// A quarter: the law between the marks of an unmeasured scale is the usual one.
		expect(Math.abs(pointerHz / movedHz - 1), `${markHz}`).toBeLessThan(0.25);
	}
});
