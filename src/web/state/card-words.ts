import type { Adjuster, SetCard } from '#record/set-card.ts';

/** What may be chosen; the words are those of the card. */
export const choices = {
	supply: ['ac-dc', 'transformer', 'battery', 'unknown'],
	common: ['chassis', 'separate B-minus', 'unknown'],
	lowEnd: ['padder', 'slug', 'none', 'unknown'],
	antenna: ['wire', 'loop', 'rod', 'car', 'unknown'],
	converterGrid: ['grid cap', 'pin', 'unknown'],
	waveTrap: ['yes', 'no', 'unknown'],
	avc: ['none', 'simple', 'delayed', 'unknown'],
} as const;

export const adjusterChoices = {
	stage: ['IF', 'oscillator', 'antenna', 'RF', 'wave trap', 'other'],
	kind: ['compression trimmer', 'air trimmer', 'padder', 'slug', 'other'],
	winding: ['primary', 'secondary', 'third'],
	end: ['high', 'low'],
	where: ['top', 'under', 'front', 'back'],
	condition: ['free', 'stuck', 'broken', 'sealed', 'cracked', 'unknown'],
	highVoltage: ['yes', 'no', 'unknown'],
} as const;

/** The form's fields as they are typed. An empty field is a thing not known. */
export interface CardWords {
	maker: string;
	model: string;
	year: string;
	supply: string;
	common: string;
	ifDesigned: string;
	ifFound: string;
	low: string;
	high: string;
	lowEnd: string;
	antenna: string;
	converterGrid: string;
	waveTrap: string;
	avc: string;
	notes: string;
}

/** A card's words as the form shows them. */
export function wordsOf(card: SetCard): CardWords {
	const [band] = card.bands ?? [];
	return {
		maker: card.maker ?? '',
		model: card.model ?? '',
		year: card.year === undefined ? '' : String(card.year),
		supply: card.supply,
		common: card.common ?? 'unknown',
		ifDesigned: card.ifDesigned?.[0]?.frequency ?? '',
		ifFound: card.ifFound?.[0]?.frequency ?? '',
		low: band?.low ?? '',
		high: band?.high ?? '',
		lowEnd: band?.lowEnd ?? 'unknown',
		antenna: card.antenna ?? 'unknown',
		converterGrid: card.converterGrid ?? 'unknown',
		waveTrap: card.waveTrap ?? 'unknown',
		avc: card.avc ?? 'unknown',
		notes: card.notes ?? '',
	};
}

type Raw = Record<string, unknown>;

/** The first of a list with one property changed, the rest as they were; nothing when the field is empty. */
function firstChanged(list: readonly Raw[] | undefined, change: Raw, isEmpty: boolean): readonly Raw[] | undefined {
	if (isEmpty) return undefined;
	const [first, ...rest] = list ?? [];
	return [{ ...first, ...change }, ...rest];
}

/** The card with the form's words in it, unchecked: what the form does not show stays as it was. */
export function cardFrom(card: SetCard, words: CardWords, adjusters: readonly Adjuster[]): Raw {
	const year = words.year.trim();
	const bandChange = { id: card.bands?.[0]?.id ?? 'broadcast', low: words.low, high: words.high, lowEnd: words.lowEnd };
	const whole: Raw = {
		...card,
		maker: words.maker.trim() || undefined,
		model: words.model.trim() || undefined,
		year: year === '' ? undefined : /^\d+$/.test(year) ? Number(year) : year,
		supply: words.supply,
		common: words.common,
		ifDesigned: firstChanged(card.ifDesigned, { frequency: words.ifDesigned }, words.ifDesigned.trim() === ''),
		ifFound: firstChanged(card.ifFound, { frequency: words.ifFound }, words.ifFound.trim() === ''),
		bands: firstChanged(card.bands, bandChange, words.low.trim() === '' && words.high.trim() === ''),
		antenna: words.antenna,
		converterGrid: words.converterGrid,
		waveTrap: words.waveTrap,
		avc: words.avc,
		notes: words.notes || undefined,
		adjusters: adjusters.length > 0 ? adjusters : undefined,
	};
	return JSON.parse(JSON.stringify(whole)) as Raw;
}
