import { siValue } from './quantity.ts';
import type { SetCard } from './set-card.ts';

/** Text without capitals and accents, a number joined to its unit: `455 kc` and `455 kc/s` become `455kc`. */
function folded(text: string): string {
	return text
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase()
		.replace(/(\d) ?(kc|mc|khz|mhz)(\/s)?(?![a-z])/g, '$1$2');
}

const plain = (value: number): string => String(Number(value.toFixed(4)));

/** A frequency in every way in which it may be asked for. */
function frequencyNames(words: string): readonly string[] {
	const frequencyHz = siValue('frequency', words);
	const [kilo, mega] = [plain(frequencyHz / 1e3), plain(frequencyHz / 1e6)];
	return [`${kilo}kc`, `${kilo}khz`, `${mega}mc`, `${mega}mhz`];
}

/** All that a set is found by: maker, model, chassis, year, tubes and IFs, each in every way in which it may be asked for. */
export function searchWords(card: SetCard): string {
	const frequencies = [...(card.ifDesigned ?? []), ...(card.ifFound ?? [])];
	const words = [card.maker, card.model, card.chassis, card.year, ...(card.tubes ?? []).map(({ type }) => type)];
	return [
		...words.filter((word) => word !== undefined).map((word) => folded(String(word))),
		...new Set(frequencies.flatMap(({ frequency }) => frequencyNames(frequency))),
	].join(' ');
}

/**
 * The words of a question, each of which has to be found; at most ten.
 * @example askedWords('Larkwater 455 kc 6A8') // => ['larkwater', '455kc', '6a8']
 */
export function askedWords(question: string): readonly string[] {
	return folded(question.slice(0, 200))
		.split(/[\s,;]+/)
		.filter((word) => word !== '')
		.slice(0, 10);
}
