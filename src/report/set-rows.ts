import type { Language } from '#record/language.ts';
import type { SetFacts } from '#record/set-facts.ts';
import type { PrintedRow } from './printed-document.ts';

/** What a row of the card is about. */
type RowOf =
	| 'year'
	| 'supply'
	| 'IF designed'
	| 'IF found'
	| 'band'
	| 'gang'
	| 'antenna'
	| 'AVC'
	| 'voice coil'
	| 'tubes'
	| 'notes';

/** A row of what the card says, and what it is about. */
export interface SetRow extends PrintedRow {
	readonly of: RowOf;
}

/** Where something is left to be written in. */
export const toFill = '____________';

const supplyWords = ({ say }: Language) => ({
	'ac-dc': say`AC/DC, chassis possibly live`,
	transformer: say`mains transformer`,
	battery: say`battery`,
	unknown: say`unknown: taken for a live chassis`,
});

const lowEndWords = ({ say }: Language) => ({
	padder: say`low end by padder`,
	slug: say`low end by core`,
	none: say`nothing to set at the low end`,
	unknown: say`low end not known`,
});

function gangWords({ gang }: SetFacts['card'], { say }: Language): string | null {
	if (gang?.capacitance === undefined) return null;
	const sections = say`${gang.sections ?? '?'} sections, ${gang.capacitance}`;
	return gang.cutPlates === 'yes' ? say`${sections}, oscillator plates cut` : sections;
}

/** What the card says of the set, as the head of the sheet carries it; what a person typed stands as it was typed. */
export function setRows({ card, bands, ...facts }: SetFacts, language: Language): readonly SetRow[] {
	const { say, term, frequency, dial } = language;
	const row = (of: RowOf, name: string, words: string | null | undefined): readonly SetRow[] =>
		words ? [{ of, name, words }] : [];
	const supply = supplyWords(language)[card.supply];
	return [
		...row('year', say`Year`, card.year?.toString()),
		...row('supply', say`Supply`, say`${supply}; common: ${term(facts.common)}`),
		...row('IF designed', say`IF as designed`, facts.ifHz === null ? say`not known` : frequency(facts.ifHz)),
		...row('IF found', say`IF as found`, card.ifFound?.map(({ frequency: words }) => words).join(', ') ?? toFill),
		...bands.flatMap(({ name, lowHz, highHz, oscillator, lowEnd }) =>
			row(
				'band',
				say`Band ${name}`,
				say`${dial(lowHz)} to ${dial(highHz)}, oscillator ${term(oscillator)}, ${lowEndWords(language)[lowEnd]}`,
			),
		),
		...row('gang', say`Gang`, gangWords(card, language)),
		...row('antenna', say`Antenna`, term(facts.antenna)),
		...row('AVC', say`AVC`, term(facts.avc)),
		...row('voice coil', say`Voice coil`, card.voiceCoil),
		...row('tubes', say`Tubes`, (card.tubes ?? []).map(({ stage, type }) => `${type} ${stage}`).join('; ')),
		...row('notes', say`Notes`, card.notes),
	];
}
