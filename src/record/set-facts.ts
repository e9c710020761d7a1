import { type Language, usualLanguage } from './language.ts';
import type { Parsed } from './parsed.ts';
import { siValue } from './quantity.ts';
import type { Adjuster, Band, SetCard } from './set-card.ts';
import { setName } from './set-name.ts';

/** Something taken for granted because the card does not say; shown with the sheet. */
export interface Assumption {
	readonly what: string;
	readonly assumed: string;
	readonly why: string;
}

/** One tuning band in SI units. */
export interface BandFacts {
	readonly id: string;
	readonly name: string;
	readonly lowHz: number;
	readonly highHz: number;
	readonly oscillator: 'above' | 'below';
	readonly lowEnd: 'padder' | 'slug' | 'none' | 'unknown';
	/** Where the high and the low end are aligned. */
	readonly highMarkHz: number;
	readonly lowMarkHz: number;
	readonly after: readonly string[];
}

/** What the card says, in SI units, with what had to be assumed. */
export interface SetFacts {
	readonly card: SetCard;
	readonly name: string;
	/** Intermediate frequency that the sheet aims at: as designed, or as found where nothing says what was designed; `null` when it has to be found first. */
	readonly ifHz: number | null;
	readonly bands: readonly BandFacts[];
	readonly adjusters: readonly Adjuster[];
	/** The set's common may be joined to the mains; an unknown supply counts so. */
	readonly liveChassis: boolean;
	readonly common: 'chassis' | 'separate B-minus' | 'unknown';
	readonly antenna: 'wire' | 'loop' | 'rod' | 'car';
	readonly waveTrap: boolean;
	readonly avc: 'none' | 'simple' | 'delayed';
	readonly assumptions: readonly Assumption[];
}

/** Alignment marks usual on broadcast dials: common practice. */
const usualMarks = { highHz: 1400e3, lowHz: 600e3 };

/** The band that a card without any is taken to have. */
export const usualBand = { id: 'broadcast', name: 'broadcast', low: '540 kc', high: '1600 kc' } as const satisfies Band;

function bandFacts(
	band: Band,
	card: SetCard,
	assume: (assumption: Assumption) => void,
	{ say, dial }: Language,
): BandFacts {
	const lowHz = siValue('frequency', band.low);
	const highHz = siValue('frequency', band.high);
	const name = band.name ?? band.id;
	const [firstHz, secondHz] = [lowHz, highHz].sort((a, b) => a - b) as [number, number];
	const given = (band.alignAt ?? []).map((words) => siValue('frequency', words)).sort((a, b) => b - a);
	const broadcast = firstHz < usualMarks.lowHz && secondHz > usualMarks.highHz;
	// Off the broadcast band: a tenth of the span from either end, chosen, as the usual marks lie there on the broadcast band.
	const inset = (secondHz - firstHz) / 10;
	// One frequency alone is of the end that it lies nearer to.
	const isOfLowEnd = given.length === 1 && (given[0] as number) < (firstHz + secondHz) / 2;
	const [highGivenHz, lowGivenHz] = isOfLowEnd ? [undefined, given[0]] : [given[0], given.slice(1).at(-1)];
	const highMarkHz = highGivenHz ?? (broadcast ? usualMarks.highHz : secondHz - inset);
	const lowMarkHz = lowGivenHz ?? (broadcast ? usualMarks.lowHz : firstHz + inset);
	if (given.length < 2) {
		assume({
			what: say`alignment points of ${name}`,
			assumed: say`${dial(highMarkHz)} and ${dial(lowMarkHz)}`,
			why: say`the card does not give them; these are usual`,
		});
	}
	if (band.oscillator !== 'above' && band.oscillator !== 'below') {
		assume({ what: say`oscillator of ${name}`, assumed: say`above the signal`, why: say`usual on this band` });
	}
	const low = (card.adjusters ?? []).find(
		(adjuster) =>
			adjuster.stage === 'oscillator' && adjuster.end === 'low' && (adjuster.bands?.includes(band.id) ?? true),
	);
	const fromAdjuster = low === undefined ? undefined : low.kind === 'slug' ? 'slug' : 'padder';
	return {
		id: band.id,
		name,
		lowHz: firstHz,
		highHz: secondHz,
		oscillator: band.oscillator === 'below' ? 'below' : 'above',
		lowEnd: band.lowEnd === undefined || band.lowEnd === 'unknown' ? (fromAdjuster ?? 'unknown') : band.lowEnd,
		highMarkHz,
		lowMarkHz,
		after: band.after ?? [],
	};
}

/** Bands in an order that does those first that others wait for; `null` when they wait for each other. */
function inOrder(bands: readonly BandFacts[]): readonly BandFacts[] | null {
	const done: BandFacts[] = [];
	let waiting = bands;
	while (waiting.length > 0) {
		const next = waiting.filter((band) =>
			band.after.every((id) => done.some((ready) => ready.id === id) || !bands.some((other) => other.id === id)),
		);
		if (next.length === 0) return null;
		done.push(...next);
		waiting = waiting.filter((band) => !next.includes(band));
	}
	return done;
}

/**
 * The facts of a set card, in SI units, with every assumption listed; or why they contradict each other.
 * @param language of the assumptions
 */
export function setFacts(card: SetCard, language: Language = usualLanguage): Parsed<SetFacts> {
	const { say, term } = language;
	const assumptions: Assumption[] = [];
	const assume = (assumption: Assumption): void => {
		assumptions.push(assumption);
	};
	const known = <T extends string>(value: T | 'unknown' | undefined, what: string, assumed: T, why: string): T => {
		if (value !== undefined && value !== 'unknown') return value;
		assume({ what, assumed: term(assumed), why });
		return assumed;
	};
	const isAm = ({ use }: { use?: string | undefined }) => use !== 'FM';
	const designed = card.ifDesigned?.find(isAm);
	const found = card.ifFound?.find(isAm);
	if (!designed && found) {
		assume({
			what: say`IF`,
			assumed: say`left where it was found, ${found.frequency}`,
			why: say`the card does not say what was designed; the dial may show another`,
		});
	}
	const aimed = designed ?? found;
	const bandCards: readonly Band[] = card.bands ?? [usualBand];
	if (!card.bands) assume({ what: say`band`, assumed: say`540 to 1600 kc`, why: say`the card names no band` });
	const bands = inOrder(bandCards.map((band) => bandFacts(band, card, assume, language)));
	if (!bands) {
		return { ok: false, words: 'bands: each waits for another to be aligned first; take one "after" away' };
	}
	const narrow = bands.find(({ lowHz, highHz }) => !(highHz > lowHz));
	if (narrow) return { ok: false, words: `bands: ${narrow.name} has no width; give its two ends` };
	const ifHz = aimed ? siValue('frequency', aimed.frequency) : null;
	const tooLow = bands.find(({ oscillator, lowHz }) => oscillator === 'below' && ifHz !== null && lowHz <= ifHz);
	if (tooLow) {
		const { name } = tooLow;
		return {
			ok: false,
			words: `bands: ${name} reaches below the IF: its oscillator cannot run below the signal; give "above"`,
		};
	}
	if (card.supply === 'unknown') {
		assume({ what: say`supply`, assumed: say`AC/DC with a live chassis`, why: say`unknown counts as the worse case` });
	}
	const live = card.supply === 'ac-dc' || card.supply === 'unknown';
	if (live && (card.common === undefined || card.common === 'unknown')) {
		assume({ what: say`common`, assumed: say`not the chassis`, why: say`unknown counts as the worse case` });
	}
	return {
		ok: true,
		value: {
			card,
			name: setName(card),
			ifHz,
			bands,
			adjusters: card.adjusters ?? [],
			liveChassis: live,
			common: card.common ?? 'unknown',
			antenna: known(card.antenna, say`antenna`, 'wire', say`the card does not say`),
			waveTrap: card.waveTrap === 'yes' || (card.adjusters ?? []).some(({ stage }) => stage === 'wave trap'),
			avc: known(card.avc, say`AVC`, 'simple', say`most sets of the kind have it`),
			assumptions,
		},
	};
}
