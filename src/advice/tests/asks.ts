import { avcFallDb, strongInputV, widthRatios } from '#core/receiver/test-figures.ts';
import { voltageWords } from '#record/quantity-words.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { TestName } from '#record/test-reading.ts';
import type { ReadingBook } from './finding.ts';
import { testMarks } from './marks.ts';
import type { Ask } from './standard-test.ts';

/** Inputs of the AVC curve, volts: 10 uV to 0.1 V in half decades. */
export const avcInputsV = [1e-5, 3e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, strongInputV] as const;
/** Where the output counts as distorted (one of several usages). */
const distortedShare = 0.1;

/** Id of the reading of sensitivity at a mark. */
export const sensitivityAsk = (dialHz: number): string => `sensitivity ${dialHz / 1e3} kc`;
/** Id of the dial error at a mark. */
export const dialId = (dialHz: number): string => `dial ${dialHz / 1e3} kc`;
/** Id of the reading of the image at a mark. */
export const imageAsk = (dialHz: number): string => `image ${dialHz / 1e3} kc`;
/** Id of the reading of the oscillator at a mark. */
export const oscillatorAsk = (dialHz: number): string => `oscillator ${dialHz / 1e3} kc`;
/** Id of the reading of an edge of a width. */
export const edgeAsk = (ratio: number, side: -1 | 1): string => `edge ${ratio} x ${side < 0 ? 'below' : 'above'}`;
/** Id of the reading of an adjacent channel. */
export const adjacentAsk = (side: -1 | 1): string => `channel ${side < 0 ? 'below' : 'above'}`;
/** Tones of the audio response: the standard tone first, to which the others are compared (the rest chosen). */
export const tonesHz = [400, 100, 200, 1000, 2000, 3000] as const;
/** Id of the reading of the output at a tone. */
export const audioAsk = (toneHz: number): string => `audio ${toneHz} c`;
/** Id of the reading of the output at an input, volume control as in the AVC test. */
export const avcAsk = (inputV: number): string => `AVC ${voltageWords(inputV)}`;

/** Dial marks at which the oscillator is looked for: five, evenly over the band. */
export function oscillatorMarksHz({ band }: ReturnType<typeof testMarks>): readonly number[] {
	return [0, 1, 2, 3, 4].map((k) => Math.round((band.lowHz + (k * (band.highHz - band.lowHz)) / 4) / 1e4) * 1e4);
}

/** The middle between the edges at twice the input, where they were read; else the frequency of the best. */
export function centreHz(book: ReadingBook, middleHz: number): number | null {
	const low = book.valueOf(edgeAsk(2, -1));
	const high = book.valueOf(edgeAsk(2, 1));
	if (low && high) return (low.value + high.value) / 2;
	return book.valueOf(sensitivityAsk(middleHz))?.generatorHz ?? null;
}

/**
 * Every reading of the standard tests of a set, in the order in which they are taken. Words carry the figures of earlier readings:
 * the input to be set is told as soon as the reference was read.
 */
export function testAsks(facts: SetFacts, book: ReadingBook): readonly Ask[] {
	const marks = testMarks(facts);
	const { lowHz, middleHz, highHz } = marks;
	const { say, dial, frequency } = book.language;
	const standard = say`the meter shows ${voltageWords(book.standardV)}`;
	const reference = book.valueOf(sensitivityAsk(middleHz));
	const times = (ratio: number): string => (ratio === 1 ? say`the input that was read` : say`${ratio} times the input`);
	const inputTimes = (ratio: number): string =>
		reference
			? say`${voltageWords(reference.value * ratio)}, ${times(ratio)} at ${dial(middleHz)}`
			: say`${times(ratio)} at ${dial(middleHz)}`;
	const centre = centreHz(book, middleHz);
	const asks: Ask[] = [];
	const ask = (
		test: TestName,
		id: string,
		label: string,
		quantity: Ask['quantity'],
		dialHz: number,
		work: Ask['work'],
		words: string,
	): void => {
		asks.push({ test, id, label, quantity, dialHz, work, words });
	};

	for (const dialHz of [middleHz, lowHz, highHz])
		ask(
			'sensitivity',
			sensitivityAsk(dialHz),
			say`Input at ${dial(dialHz)}`,
			'input volts',
			dialHz,
			{ kind: 'input at best', near: 'dial' },
			say`Pointer on ${dial(dialHz)}, volume full up. Tune the generator near it for most output. Set its attenuator until ${standard}. Type the input and where the generator stands, such as 21 uV at 1001.2 kc.`,
		);
	ask(
		'sensitivity',
		'output doubled',
		say`Output at twice the input`,
		'output volts',
		middleHz,
		{ kind: 'output at best', ratio: 2, depth: 0.3 },
		say`Pointer on ${dial(middleHz)}, generator tuned for most output. Set the input to ${inputTimes(2)}. Type the output.`,
	);
	ask(
		'signal to noise',
		'tone on',
		say`Output with the tone`,
		'output volts',
		middleHz,
		{ kind: 'output at best', ratio: 1, depth: 0.3 },
		say`Set the input to ${inputTimes(1)}, tone on. Type the output.`,
	);
	ask(
		'signal to noise',
		'tone off',
		say`Output without the tone`,
		'output volts',
		middleHz,
		{ kind: 'output at best', ratio: 1, depth: 0 },
		say`Switch the modulation off, the carrier stays. Type the output.`,
	);
	for (const ratio of widthRatios)
		for (const side of [-1, 1] as const)
			ask(
				'selectivity',
				edgeAsk(ratio, side),
				side < 0 ? say`Edge below, ${ratio} times` : say`Edge above, ${ratio} times`,
				'frequency',
				middleHz,
				{ kind: 'edge', ratio, side },
				side < 0
					? say`Set the input to ${inputTimes(ratio)}. Begin far below and come in until ${standard}. Type the generator's frequency.`
					: say`Set the input to ${inputTimes(ratio)}. Begin far above and come in until ${standard}. Type the generator's frequency.`,
			);
	for (const side of [-1, 1] as const) {
		const { channelHz } = book.gear;
		const where =
			centre === null
				? side < 0
					? say`${frequency(channelHz)} below the middle of the two edges`
					: say`${frequency(channelHz)} above the middle of the two edges`
				: frequency(centre + side * channelHz);
		ask(
			'selectivity',
			adjacentAsk(side),
			side < 0 ? say`Input, channel below` : say`Input, channel above`,
			'input volts',
			middleHz,
			{ kind: 'input off tune', offHz: side * channelHz },
			say`Set the generator to ${where}. Raise the input until ${standard}. Type the input.`,
		);
	}
	const imageOffHz = facts.ifHz === null ? null : (marks.band.oscillator === 'below' ? -2 : 2) * facts.ifHz;
	// With the oscillator below, a mark less than twice the IF up has no image.
	for (const dialHz of [lowHz, middleHz, highHz].filter((markHz) => imageOffHz === null || markHz + imageOffHz > 0))
		ask(
			'rejection',
			imageAsk(dialHz),
			say`Image at ${dial(dialHz)}`,
			'input volts',
			dialHz,
			{ kind: 'input at best', near: 'image' },
			say`Pointer on ${dial(dialHz)}. Tune the generator for most output near ${imageOffHz === null ? say`the dial and twice the IF` : frequency(dialHz + imageOffHz)}. Raise the input until ${standard}. Type the input.`,
		);
	ask(
		'rejection',
		'IF',
		say`Signal at the IF`,
		'input volts',
		lowHz,
		{ kind: 'input at best', near: 'IF' },
		say`Pointer on ${dial(lowHz)}. Tune the generator for most output near ${facts.ifHz === null ? say`the IF` : frequency(facts.ifHz)}. Raise the input until ${standard}. Type the input.`,
	);
	for (const inputV of avcInputsV.toReversed())
		ask(
			'AVC',
			avcAsk(inputV),
			say`Output at ${voltageWords(inputV)}`,
			'output volts',
			middleHz,
			{ kind: 'output at input', inputV },
			inputV === strongInputV
				? say`Pointer on ${dial(middleHz)}, generator tuned for most output, input ${voltageWords(inputV)}. Turn the volume down until ${standard}; then leave it. Type the output.`
				: say`Input ${voltageWords(inputV)}, volume as it is. Type the output.`,
		);
	const strong = book.valueOf(avcAsk(strongInputV));
	ask(
		'AVC',
		'AVC fall',
		say`Input for ${avcFallDb} dB less output`,
		'input volts',
		middleHz,
		{ kind: 'input for fall', fallDb: avcFallDb },
		say`Lower the input from ${voltageWords(strongInputV)} until the output is ${strong ? voltageWords(strong.value / 10 ** (avcFallDb / 20)) : say`${avcFallDb} dB below what it was there`}. Type the input.`,
	);
	if (book.gear.readsDistortion) {
		ask(
			'output',
			'output distorted',
			say`Output at ${100 * distortedShare} % distortion`,
			'output volts',
			middleHz,
			{ kind: 'output at distortion', distortionShare: distortedShare },
			say`Input 1 mV, 400 c at 30 %. Advance the volume until the distortion meter shows ${100 * distortedShare} %. Type the output.`,
		);
		ask(
			'distortion',
			'distortion',
			say`Distortion at the standard output`,
			'distortion share',
			middleHz,
			{ kind: 'distortion' },
			say`Input 1 mV. Volume down until ${standard}. Type the distortion in %.`,
		);
	}
	for (const toneHz of tonesHz)
		ask(
			'audio response',
			audioAsk(toneHz),
			say`Output at ${toneHz} c`,
			'output volts',
			middleHz,
			{ kind: 'output at tone', toneHz },
			say`Input 1 mV, volume as the AVC test left it, tone control bright. Modulate with ${toneHz} c at 30 %. Type the output.`,
		);
	for (const [volume, label] of [
		[1, 'full up'],
		[0, 'down'],
	] as const)
		ask(
			'hum',
			`hum ${label}`,
			volume === 0 ? say`Hum, volume down` : say`Hum, volume full up`,
			'output volts',
			middleHz,
			{ kind: 'quiet output', volume },
			volume === 0
				? say`Generator off, pointer at a quiet spot, volume down. Type the output.`
				: say`Generator off, pointer at a quiet spot, volume full up. Type the output.`,
		);
	for (const dialHz of oscillatorMarksHz(marks))
		ask(
			'oscillator',
			oscillatorAsk(dialHz),
			say`Oscillator at ${dial(dialHz)}`,
			'frequency',
			dialHz,
			{ kind: 'oscillator' },
			facts.ifHz === null
				? say`Pointer on ${dial(dialHz)}. Find the oscillator on a second receiver standing near, or by a counter's loop without contact. Type its frequency, or "none" when it is silent.`
				: say`Pointer on ${dial(dialHz)}. Find the oscillator on a second receiver standing near, about ${frequency(dialHz + (marks.band.oscillator === 'below' ? -1 : 1) * facts.ifHz)}, or by a counter's loop without contact. Type its frequency, or "none" when it is silent.`,
		);
	for (const [id, point, at, label, words] of [
		[
			'converter grid at dial',
			'converter grid',
			'dial',
			say`Converter grid, signal`,
			say`the converter's signal grid, generator at ${dial(middleHz)}`,
		],
		[
			'converter grid at IF',
			'converter grid',
			'IF',
			say`Converter grid, IF`,
			say`the converter's signal grid, generator at the IF`,
		],
		['IF grid', 'IF grid', 'IF', say`IF grid`, say`the IF tube's grid, generator at the IF`],
		['audio grid', 'audio grid', 'tone', say`Audio grid`, say`the top of the volume control, 400 c without carrier`],
	] as const)
		ask(
			'stage gain',
			id,
			label,
			'input volts',
			middleHz,
			{ kind: 'input at point', point, at },
			say`Set unplugged, discharged and proved dead: clip the lead through 0.1 mfd (630 V) to ${words}. Power, hands off. Set the level until ${standard}. Type it.`,
		);
	return asks;
}
