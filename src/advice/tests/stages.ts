/** Stage by stage: what each place along the set needs for one and the same output. */
import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { sensitivityAsk } from './asks.ts';
import { digitShare, plainFinding, type ReadingBook, withinLimit } from './finding.ts';
import { ratioDb } from './marked-inputs.ts';
import { isThroughAir, type TestMarks } from './marks.ts';
import type { Finding } from './standard-test.ts';

/** Ids of the gains, from the antenna to the output. */
export const stageIds = ['antenna circuit', 'converter', 'IF stage', 'detector', 'audio'] as const;

const ladder = ({ say }: Language) =>
	[
		{ id: 'antenna circuit', label: say`Gain to the converter grid`, from: 'antenna', to: 'converter grid at dial' },
		{
			id: 'converter',
			label: say`Converter, signal against IF`,
			from: 'converter grid at dial',
			to: 'converter grid at IF',
		},
		{ id: 'IF stage', label: say`Gain to the IF grid`, from: 'converter grid at IF', to: 'IF grid' },
		{ id: 'detector', label: say`Gain from the IF grid to the tone`, from: 'IF grid', to: 'audio grid' },
	] as const;

/** From the top of the volume control on nothing follows AVC: a decibel there is a decibel at the output. */
function audioFinding(book: ReadingBook): Finding | null {
	const { say } = book.language;
	const tone = book.valueOf('audio grid');
	if (!tone) return null;
	const { generatorLimitDb, meterLimitDb } = book.gear;
	const budget = [
		...(generatorLimitDb === null
			? []
			: [{ from: say`generator's volts`, size: withinLimit(generatorLimitDb), isSystematic: true }]),
		{ from: say`output meter`, size: withinLimit(meterLimitDb), isSystematic: true },
		book.attenuatorShare,
		digitShare(tone, say`last digit`),
	];
	return plainFinding(
		{
			id: 'audio',
			test: 'stage gain',
			label: say`Gain from there to the output`,
			unit: 'dB',
			better: 'more',
			budget,
			isRelative: generatorLimitDb === null,
		},
		ratioDb(book.standardV / tone.value),
	);
}

/** Gains from place to place, as far as they were read. */
export function stageFindings(facts: SetFacts, book: ReadingBook, marks: TestMarks): readonly Finding[] {
	const { say } = book.language;
	const rungs = ladder(book.language).flatMap(({ id, label, from, to }) => {
		const before = book.valueOf(from === 'antenna' ? sensitivityAsk(marks.middleHz) : from);
		const after = book.valueOf(to);
		if (!before || !after) return [];
		// What the meter is off moves an input that AVC holds by more than a tone that it does not.
		const meter = book.meterShare;
		const toTone = [{ ...meter, size: Math.abs(meter.size - withinLimit(book.gear.meterLimitDb)) }];
		const budget = [
			...(to === 'audio grid' ? toTone : []),
			book.attenuatorShare,
			book.settingShare,
			digitShare(before, say`last digit before`),
			digitShare(after, say`last digit after`),
		];
		return [
			plainFinding(
				{
					id,
					test: 'stage gain',
					label,
					unit: 'dB',
					better: 'more',
					budget,
					isRelative: from === 'antenna' && isThroughAir(facts),
				},
				ratioDb(after.value / before.value),
			),
		];
	});
	const audio = audioFinding(book);
	return audio ? [...rungs, audio] : rungs;
}
