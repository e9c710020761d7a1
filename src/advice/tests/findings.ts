import { siValue } from '#record/quantity.ts';
import { frequencyWords } from '#record/quantity-words.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { dialId, edgeAsk, imageAsk, oscillatorAsk, oscillatorMarksHz, sensitivityAsk } from './asks.ts';
import { avcFindings } from './avc.ts';
import { againShare, digitShare, levelFinding, plainFinding, ReadingBook, ratioDb, withinLimit } from './finding.ts';
import { type TestMarks, testMarks } from './marks.ts';
import { outputFindings } from './output.ts';
import { selectivityFindings } from './selectivity.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

const kc = (frequencyHz: number): string => frequencyWords(frequencyHz, 'US');

/** Loaded Q of an antenna circuit, for the share of the pointer: high for a table set (chosen). */
const antennaQ = 60;
/** Length of a dial scale where the card does not say (chosen). */
const usualTravelM = 0.15;

/** Hertz of the dial along a metre of its scale, on the average. */
function hzPerM(facts: SetFacts, { band }: TestMarks): number {
	const travel = facts.card.scales?.find((scale) => scale.band === band.id)?.travel;
	return (band.highHz - band.lowHz) / (travel === undefined ? usualTravelM : siValue('length', travel));
}

/**
 * What a pointer set a little off its mark does to the input: the antenna circuit is then that much off tune.
 * Its steepest decibels per hertz, 4.34 x 2 Q / f at half power, over the root of two since it may be anywhere on its curve.
 */
function pointerShare(facts: SetFacts, marks: TestMarks, gear: TestGear, dialHz: number): BudgetShare {
	const steepDbPerHz = (10 / Math.LN10) * ((2 * antennaQ) / dialHz);
	return {
		from: 'setting the pointer',
		size: (steepDbPerHz * hzPerM(facts, marks) * gear.pointerM) / Math.SQRT2,
		isSystematic: false,
	};
}

function sensitivityFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const { generatorLimitDb } = book.gear;
	const isCoupled = facts.antenna === 'loop' || facts.antenna === 'rod';
	const relative =
		generatorLimitDb === null
			? "by the generator's own scale, whose volts are not known: only differences mean anything"
			: isCoupled
				? `by the generator's scale, coupled through the air to the ${facts.antenna}: only differences mean anything`
				: null;
	return [marks.lowHz, marks.middleHz, marks.highHz].flatMap((dialHz) => {
		const reading = book.of(sensitivityAsk(dialHz));
		if (!reading) return [];
		const budget: BudgetShare[] = [
			book.meterShare,
			book.settingShare,
			digitShare(reading, 'last digit'),
			pointerShare(facts, marks, book.gear, dialHz),
			...(generatorLimitDb === null
				? []
				: [{ from: "generator's volts", size: withinLimit(generatorLimitDb), isSystematic: true }]),
		];
		return [
			levelFinding(
				{
					id: sensitivityAsk(dialHz),
					test: 'sensitivity',
					label: `Sensitivity at ${kc(dialHz)}`,
					unit: 'V',
					better: 'less',
					budget,
					isRelative: relative !== null,
					remarks: relative === null ? [] : [relative],
				},
				reading.value,
			),
		];
	});
}

function noiseFindings(book: ReadingBook): readonly Finding[] {
	const on = book.valueOf('tone on');
	const off = book.valueOf('tone off');
	if (!on || !off) return [];
	const bothDb = ratioDb(on.value / off.value);
	// Neither better nor worse: a set that needs less input has less over its noise there.
	const what = { id: 'signal to noise', test: 'signal to noise', unit: 'dB', better: 'neither' } as const;
	const budget: BudgetShare[] = [
		{ from: 'output meter over this range', size: withinLimit(book.gear.meterLimitDb), isSystematic: true },
		digitShare(on, 'last digit with the tone'),
		digitShare(off, 'last digit without it'),
		againShare,
	];
	return [plainFinding({ ...what, label: 'Signal to noise at that input', budget }, bothDb)];
}

function rejectionFindings(book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const asked = [
		...[marks.lowHz, marks.middleHz, marks.highHz].map((dialHz) => ({
			id: imageAsk(dialHz),
			dialHz,
			label: `Image rejection at ${kc(dialHz)}`,
		})),
		{ id: 'IF', dialHz: marks.lowHz, label: `IF rejection at ${kc(marks.lowHz)}` },
	];
	return asked.flatMap(({ id, dialHz, label }) => {
		const reading = book.of(id);
		const reference = book.valueOf(sensitivityAsk(dialHz));
		if (!reading || !reference) return [];
		const budget = [
			book.attenuatorShare,
			book.settingShare,
			digitShare(reference, 'last digit at the dial'),
			digitShare(reading, 'last digit'),
		];
		const value = reading.value === null ? null : ratioDb(reading.value / reference.value);
		return [plainFinding({ id, test: 'rejection', label, unit: 'dB', better: 'more', budget }, value)];
	});
}

function oscillatorFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	return oscillatorMarksHz(marks).flatMap((dialHz) => {
		const reading = book.of(oscillatorAsk(dialHz));
		if (!reading) return [];
		const budget: BudgetShare[] = [
			{
				from: 'reading the frequency',
				size: Math.hypot(withinLimit(book.gear.frequencyLimitHz), reading.uncertainty),
				isSystematic: false,
			},
			{ from: 'setting the pointer', size: hzPerM(facts, marks) * book.gear.pointerM, isSystematic: false },
		];
		return [
			plainFinding(
				{
					id: oscillatorAsk(dialHz),
					test: 'oscillator',
					label: `Oscillator at ${kc(dialHz)}`,
					unit: 'Hz',
					better: 'neither',
					budget,
					remarks: reading.value === null ? ['silent: the oscillator has stopped here'] : [],
				},
				reading.value,
			),
		];
	});
}

/** Where a peak is set by a needle, as a share of the width at twice the input: a quarter of a decibel down on a parabola (chosen). */
const peakShare = 0.1;
/** Width where it was not read, hertz (common practice). */
const usualWidthHz = 9e3;

/** Dial errors: where the set is heard best less what its pointer says. They come with the readings of sensitivity. */
function dialFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const low = book.valueOf(edgeAsk(2, -1));
	const high = book.valueOf(edgeAsk(2, 1));
	const widthHz = low && high ? high.value - low.value : usualWidthHz;
	return [marks.lowHz, marks.middleHz, marks.highHz].flatMap((dialHz) => {
		const generatorHz = book.of(sensitivityAsk(dialHz))?.generatorHz;
		if (generatorHz === undefined) return [];
		const budget: BudgetShare[] = [
			{ from: 'reading the frequency', size: withinLimit(book.gear.frequencyLimitHz), isSystematic: false },
			{ from: 'setting the pointer', size: hzPerM(facts, marks) * book.gear.pointerM, isSystematic: false },
			{ from: 'finding the peak', size: peakShare * widthHz, isSystematic: false },
		];
		return [
			plainFinding(
				{
					id: dialId(dialHz),
					test: 'dial',
					label: `Dial error at ${kc(dialHz)}`,
					unit: 'Hz',
					better: 'neither',
					budget,
				},
				generatorHz - dialHz,
			),
		];
	});
}

const ladder = [
	{ id: 'antenna circuit', label: 'Gain to the converter grid', from: 'antenna', to: 'converter grid at dial' },
	{
		id: 'converter',
		label: 'Converter, signal against IF',
		from: 'converter grid at dial',
		to: 'converter grid at IF',
	},
	{ id: 'IF stage', label: 'Gain to the IF grid', from: 'converter grid at IF', to: 'IF grid' },
] as const;

function stageFindings(book: ReadingBook, marks: TestMarks): readonly Finding[] {
	return ladder.flatMap(({ id, label, from, to }) => {
		const before = book.valueOf(from === 'antenna' ? sensitivityAsk(marks.middleHz) : from);
		const after = book.valueOf(to);
		if (!before || !after) return [];
		const budget = [
			book.attenuatorShare,
			book.settingShare,
			digitShare(before, 'last digit before'),
			digitShare(after, 'last digit after'),
		];
		return [
			plainFinding(
				{ id, test: 'stage gain', label, unit: 'dB', better: 'more', budget },
				ratioDb(after.value / before.value),
			),
		];
	});
}

/** Everything that the readings of one moment say, each with its uncertainty and where that comes from. */
export function testFindings(facts: SetFacts, gear: TestGear, readings: readonly TestReading[]): readonly Finding[] {
	const book = new ReadingBook(readings, gear);
	const marks = testMarks(facts);
	return [
		...sensitivityFindings(facts, book, marks),
		...noiseFindings(book),
		...selectivityFindings(book, marks.middleHz),
		...rejectionFindings(book, marks),
		...avcFindings(book),
		...outputFindings(book),
		...dialFindings(facts, book, marks),
		...oscillatorFindings(facts, book, marks),
		...stageFindings(book, marks),
	];
}
