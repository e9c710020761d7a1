import {
	nearestPreferred,
	type PartChoice,
	partChoices,
	type Series,
	seriesTolerance,
	seriesValues,
} from '#core/circuit/preferred-values.ts';
import { capacitanceWords, inductanceWords, resistanceWords } from '#record/quantity-words.ts';
import { type PartAnswer, percentWords } from './part-answer.ts';

/** What a value is of. */
export type PartKind = 'capacitance' | 'inductance' | 'resistance';

/** How each kind is written, which joint adds it up, and the unit that ends its names. */
const kinds = {
	capacitance: { words: capacitanceWords, adding: 'parallel', unit: 'F' },
	inductance: { words: inductanceWords, adding: 'series', unit: 'H' },
	resistance: { words: resistanceWords, adding: 'series', unit: 'Ohm' },
} as const;

/** What stands to choose from: a series of preferred values, or the values in the person's own drawer. */
export type Stock =
	| { readonly kind: 'series'; readonly series: Series }
	| { readonly kind: 'drawer'; readonly values: readonly number[] };

/** A choice as words, with how far it is off. */
export function choiceWords(kind: PartKind, { joint, parts, value, offShare }: PartChoice): string {
	const { words } = kinds[kind];
	const off =
		Math.abs(offShare) < 5e-5 ? 'exact' : `${offShare > 0 ? '+' : '\u2212'}${percentWords(Math.abs(offShare))}`;
	if (joint === 'alone') return `${words(value)}, ${off}`;
	return `${parts.map(words).join(` ${joint === 'series' ? 'in series with' : 'beside'} `)}: ${words(value)}, ${off}`;
}

/**
 * The best choices for a wanted value, one part or a pair, nearest first.
 * @param wanted in farads, henries or ohms
 */
export function choicesFor(kind: PartKind, wanted: number, stock: Stock, most: number): readonly PartChoice[] {
	// A pair of a series never needs a part more than a hundred times the wanted value to come within its own tolerance.
	const values = stock.kind === 'drawer' ? stock.values : seriesValues(stock.series, wanted / 100, wanted * 100);
	return partChoices(wanted, values, kinds[kind].adding, most);
}

/** Which part or pair comes nearest to a wanted value. */
export function pairAnswer(kind: PartKind, wanted: number, stock: Stock): PartAnswer {
	const { words, unit } = kinds[kind];
	const choices = choicesFor(kind, wanted, stock, 5);
	const [best] = choices;
	const single = stock.kind === 'series' ? nearestPreferred(stock.series, wanted) : null;
	const alone: PartChoice | null =
		single === null ? null : { joint: 'alone', parts: [single], value: single, offShare: single / wanted - 1 };
	const from = stock.kind === 'series' ? `series ${stock.series}` : 'the drawer';
	return {
		figures: {
			[`wanted${unit}`]: wanted,
			...(single === null ? {} : { [`nearest${unit}`]: single }),
			choices: choices.map(({ joint, parts, value, offShare }) => ({
				joint,
				[`parts${unit}`]: parts,
				[`value${unit}`]: value,
				offShare,
			})),
		},
		lines: [
			{ name: 'wanted', words: words(wanted) },
			...(alone === null ? [] : [{ name: `nearest single part, ${from}`, words: choiceWords(kind, alone) }]),
			...choices.map((choice, place) => ({ name: `choice ${place + 1}`, words: choiceWords(kind, choice) })),
		],
		sheetWords: best
			? `Wanted ${words(wanted)}; fitted ${choiceWords(kind, best)}.`
			: `Wanted ${words(wanted)}; nothing in the drawer.`,
		toleranceWords:
			stock.kind === 'series'
				? `Parts of ${stock.series} usually keep \u00b1${percentWords(seriesTolerance[stock.series])}: a pair that is nearer than that on paper is no nearer on the bench unless the parts are measured.`
				: 'The drawer\u2019s values are taken as written: measure the parts where the choice has to be nearer than their tolerance.',
		sourceWords:
			stock.kind === 'series' ? 'IEC 60063, preferred values.' : 'Sums and reciprocal sums; coils that do not couple.',
		cautions:
			kind === 'capacitance'
				? [
						'A capacitor that meets a plate circuit is rated at least 630 V DC; in series each needs the whole rating unless resistors share the voltage.',
					]
				: [],
	};
}
