import { strongInputV } from '#core/receiver/test-figures.ts';
import { voltageWords } from '#record/quantity-words.ts';
import { avcAsk, avcInputsV } from './asks.ts';
import { digitShare, plainFinding, type ReadingBook, withinLimit } from './finding.ts';
import { ratioDb } from './marked-inputs.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

/** How far the volts of a generator may be off whose scale is not in volts (chosen). */
const unknownVoltsDb = 10;

/** The AVC curve as it was read: input and output, strongest first. */
export function avcCurve(book: ReadingBook): readonly { readonly inputV: number; readonly outputV: number }[] {
	return avcInputsV.toReversed().flatMap((inputV) => {
		const reading = book.valueOf(avcAsk(inputV));
		return reading ? [{ inputV: book.inputs.givenV(inputV), outputV: reading.value }] : [];
	});
}

/** The AVC figure of merit: how far the input may fall until the output is 10 dB down. */
export function avcFindings(book: ReadingBook): readonly Finding[] {
	const fall = book.of('AVC fall');
	const { say } = book.language;
	if (!fall) return [];
	const curve = avcCurve(book);
	const at = curve.findIndex(({ inputV }) => fall.value !== null && inputV < fall.value);
	const stronger = curve[at - 1];
	const weaker = curve[at];
	// Output for input there; where the curve was not read, a third: AVC well at work (chosen).
	const slope =
		stronger && weaker ? ratioDb(stronger.outputV / weaker.outputV) / ratioDb(stronger.inputV / weaker.inputV) : 1 / 3;
	// From where the fall begins depends on the generator's true volts, and matters as far as AVC is less than perfect there.
	const [first, second] = curve;
	const strongSlope =
		first && second ? ratioDb(first.outputV / second.outputV) / ratioDb(first.inputV / second.inputV) : slope / 2;
	const budget: BudgetShare[] = [
		{
			from: say`generator's volts`,
			size:
				withinLimit(book.gear.generatorLimitDb ?? unknownVoltsDb) * Math.abs(1 - strongSlope / Math.max(slope, 0.1)),
			isSystematic: true,
		},
		{
			from: say`output meter over this range`,
			size: withinLimit(book.gear.meterLimitDb) / Math.max(slope, 0.1),
			isSystematic: true,
		},
		book.attenuatorShare,
		{
			from: say`setting the output`,
			size: (book.settingShare.size * book.outputPerInput) / Math.max(slope, 0.1),
			isSystematic: false,
		},
		digitShare(fall, say`last digit`),
	];
	return [
		plainFinding(
			{
				id: 'AVC',
				test: 'AVC',
				label: say`AVC, from ${voltageWords(strongInputV)}`,
				unit: 'dB',
				better: 'more',
				budget,
			},
			fall.value === null ? null : ratioDb(book.inputs.givenV(strongInputV) / fall.value),
		),
	];
}
