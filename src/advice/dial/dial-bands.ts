/** The bands of one set on one dial: which come first, and which adjusters they share. */
import { type Language, usualLanguage } from '#record/language.ts';
import type { Adjuster } from '#record/set-card.ts';
import type { BandFacts, SetFacts } from '#record/set-facts.ts';

/** A band on the page, in the order of the work. */
export interface DialBand {
	readonly band: BandFacts;
	/** The oscillator's adjusters that this band goes by. */
	readonly adjusters: readonly Adjuster[];
	/** What a person should know before reading it, as sentences. */
	readonly remarks: readonly string[];
}

/** Bands that an adjuster moves; one without bands on the card moves all. */
function movedBy({ bands: named }: Adjuster, bands: readonly BandFacts[]): readonly BandFacts[] {
	return named ? bands.filter(({ id }) => named.includes(id)) : bands;
}

/** Names of the other bands that an adjuster moves too. */
export function alsoMoved({ bands }: SetFacts, band: string, adjuster: Adjuster): readonly string[] {
	return movedBy(adjuster, bands)
		.filter(({ id }) => id !== band)
		.map(({ name }) => name);
}

/** From here on an image is no longer told from its signal by loudness (chosen: one circuit of Q 60 rejects it by 30 dB here at an IF of 455 kc, by 16 at 18 Mc). */
export const imageFromHz = 3e6;

/** The bands of a set in the order of the work, each with its adjusters and what hangs on it. */
export function dialBands(facts: SetFacts, { say, dial }: Language = usualLanguage): readonly DialBand[] {
	return facts.bands.map((band) => {
		const adjusters = facts.adjusters.filter(
			(adjuster) => adjuster.stage === 'oscillator' && movedBy(adjuster, facts.bands).includes(band),
		);
		const first = band.after
			.map((id) => facts.bands.find((other) => other.id === id)?.name)
			.filter((name) => name !== undefined);
		const shared = adjusters
			.map(({ id, name }) => ({
				id,
				name,
				others: alsoMoved(facts, band.id, adjusters.find((one) => one.id === id) as Adjuster),
			}))
			.filter(({ others }) => others.length > 0);
		return {
			band,
			adjusters,
			remarks: [
				...(first.length > 0 ? [`Do ${first.join(' and ')} first: this band goes by what is set there.`] : []),
				...shared.map(
					({ name, others }) => `${name} moves ${others.join(' and ')} too: read that dial again after turning it.`,
				),
				...(band.lowEnd === 'none'
					? [
							facts.bands.length > 1
								? say`No padder or slug: the trimmer alone, at ${dial(band.highMarkHz)}; the pointer belongs to all bands.`
								: say`No padder or slug: the trimmer alone, at ${dial(band.highMarkHz)}.`,
						]
					: []),
				...(band.highHz > imageFromHz
					? [
							`Signal and image both come in here. The oscillator lies ${band.oscillator} the signal: of the two peaks of its trimmer the right one has ${band.oscillator === 'above' ? 'less' : 'more'} capacitance. Come from ${band.oscillator === 'above' ? 'the screw far out' : 'the screw far in'}, and try with the generator which one it is.`,
						]
					: []),
			],
		};
	});
}
