import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { dialHzPerM } from '../dial/dial-marks.ts';
import { dialId, edgeAsk, imageAsk, oscillatorAsk, oscillatorMarksHz, sensitivityAsk } from './asks.ts';
import { avcFindings } from './avc.ts';
import { digitShare, levelFinding, plainFinding, ReadingBook, withinLimit } from './finding.ts';
import type { MarkedInputs } from './marked-inputs.ts';
import { ratioDb } from './marked-inputs.ts';
import { isThroughAir, type TestMarks, testMarks } from './marks.ts';
import { outputFindings } from './output.ts';
import { selectivityFindings } from './selectivity.ts';
import { stageFindings } from './stages.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

/** Loaded Q of an antenna circuit, for the share of the pointer: high for a table set (chosen). */
const antennaQ = 60;
/**
 * What a pointer set a little off its mark does to the input: the antenna circuit is then that much off tune.
 * Its steepest decibels per hertz, 4.34 x 2 Q / f at half power, over the root of two since it may be anywhere on its curve.
 */
function pointerShare(
	facts: SetFacts,
	{ band }: TestMarks,
	{ gear, language: { say } }: ReadingBook,
	dialHz: number,
): BudgetShare {
	const steepDbPerHz = (10 / Math.LN10) * ((2 * antennaQ) / dialHz);
	return {
		from: say`setting the pointer`,
		size: (steepDbPerHz * dialHzPerM(facts, band, dialHz) * gear.pointerM) / Math.SQRT2,
		isSystematic: false,
	};
}

function sensitivityFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const { generatorLimitDb } = book.gear;
	const { say, term, dial } = book.language;
	const relative =
		generatorLimitDb === null
			? say`by the generator's own scale, whose volts are not known: only differences mean anything`
			: isThroughAir(facts)
				? say`by the generator's scale, coupled through the air to the ${term(facts.antenna)}: only differences mean anything`
				: null;
	return [marks.lowHz, marks.middleHz, marks.highHz].flatMap((dialHz) => {
		const reading = book.of(sensitivityAsk(dialHz));
		if (!reading) return [];
		const budget: BudgetShare[] = [
			book.meterShare,
			book.settingShare,
			digitShare(reading, say`last digit`),
			pointerShare(facts, marks, book, dialHz),
			...(generatorLimitDb === null
				? []
				: [{ from: say`generator's volts`, size: withinLimit(generatorLimitDb), isSystematic: true }]),
		];
		return [
			levelFinding(
				{
					id: sensitivityAsk(dialHz),
					test: 'sensitivity',
					label: say`Sensitivity at ${dial(dialHz)}`,
					dialHz,
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
	const { say } = book.language;
	const bothDb = ratioDb(on.value / off.value);
	// Neither better nor worse: a set that needs less input has less over its noise there.
	const what = { id: 'signal to noise', test: 'signal to noise', unit: 'dB', better: 'neither' } as const;
	const budget: BudgetShare[] = [
		{ from: say`output meter over this range`, size: withinLimit(book.gear.meterLimitDb), isSystematic: true },
		digitShare(on, say`last digit with the tone`),
		digitShare(off, say`last digit without it`),
		book.againShare,
	];
	return [plainFinding({ ...what, label: say`Signal to noise at that input`, budget }, bothDb)];
}

function rejectionFindings(book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const { say, dial } = book.language;
	const asked = [
		...[marks.lowHz, marks.middleHz, marks.highHz].map((dialHz) => ({
			id: imageAsk(dialHz),
			dialHz,
			label: say`Image rejection at ${dial(dialHz)}`,
		})),
		{ id: 'IF', dialHz: marks.lowHz, label: say`IF rejection at ${dial(marks.lowHz)}` },
	];
	return asked.flatMap(({ id, dialHz, label }) => {
		const reading = book.of(id);
		const reference = book.valueOf(sensitivityAsk(dialHz));
		if (!reading || !reference) return [];
		const budget = [
			book.attenuatorShare,
			book.settingShare,
			digitShare(reference, say`last digit at the dial`),
			digitShare(reading, say`last digit`),
		];
		const value = reading.value === null ? null : ratioDb(reading.value / reference.value);
		return [plainFinding({ id, test: 'rejection', label, unit: 'dB', better: 'more', budget }, value)];
	});
}

function oscillatorFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const { say, dial } = book.language;
	return oscillatorMarksHz(marks).flatMap((dialHz) => {
		const reading = book.of(oscillatorAsk(dialHz));
		if (!reading) return [];
		const budget: BudgetShare[] = [
			{
				from: say`reading the frequency`,
				size: Math.hypot(withinLimit(book.gear.frequencyLimitHz), reading.uncertainty),
				isSystematic: false,
			},
			{
				from: say`setting the pointer`,
				size: dialHzPerM(facts, marks.band, dialHz) * book.gear.pointerM,
				isSystematic: false,
			},
		];
		return [
			plainFinding(
				{
					id: oscillatorAsk(dialHz),
					test: 'oscillator',
					label: say`Oscillator at ${dial(dialHz)}`,
					unit: 'Hz',
					better: 'neither',
					budget,
					remarks: reading.value === null ? [say`silent: the oscillator has stopped here`] : [],
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
	const { say, dial } = book.language;
	const low = book.valueOf(edgeAsk(2, -1));
	const high = book.valueOf(edgeAsk(2, 1));
	const widthHz = low && high ? high.value - low.value : usualWidthHz;
	return [marks.lowHz, marks.middleHz, marks.highHz].flatMap((dialHz) => {
		const generatorHz = book.of(sensitivityAsk(dialHz))?.generatorHz;
		if (generatorHz === undefined) return [];
		const budget: BudgetShare[] = [
			{ from: say`reading the frequency`, size: withinLimit(book.gear.frequencyLimitHz), isSystematic: false },
			{
				from: say`setting the pointer`,
				size: dialHzPerM(facts, marks.band, dialHz) * book.gear.pointerM,
				isSystematic: false,
			},
			{ from: say`finding the peak`, size: peakShare * widthHz, isSystematic: false },
		];
		return [
			plainFinding(
				{
					id: dialId(dialHz),
					test: 'dial',
					label: say`Dial error at ${dial(dialHz)}`,
					unit: 'Hz',
					better: 'neither',
					budget,
				},
				generatorHz - dialHz,
			),
		];
	});
}

/** Everything that the readings of one moment say, each with its uncertainty and where that comes from. */
export function testFindings(
	facts: SetFacts,
	gear: TestGear,
	readings: readonly TestReading[],
	language?: Language,
	inputs?: MarkedInputs,
): readonly Finding[] {
	const book = new ReadingBook(readings, gear, language, inputs);
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
		...stageFindings(facts, book, marks),
	];
}
