import type { BandFacts, SetFacts } from '#record/set-facts.ts';

/** Three dial marks at which a band is tested, low to high. */
export interface TestMarks {
	readonly band: BandFacts;
	readonly lowHz: number;
	readonly middleHz: number;
	readonly highHz: number;
}

/** The middle mark of broadcast dials: common practice. */
const broadcastMiddleHz = 1000e3;

/** The set's first band with amplitude modulation. */
function testedBand({ card, bands }: SetFacts): BandFacts | undefined {
	return bands.find(({ id }) => card.bands?.find((band) => band.id === id)?.modulation !== 'FM');
}

/** Why the standard tests do not fit this set, in a sentence; `null` where they do. */
export function testsUnfit(facts: SetFacts): string | null {
	if (testedBand(facts) === undefined)
		return 'these tests are for amplitude modulation, and the card names only FM bands: give the AM band, if there is one';
	const { circuit } = facts.card;
	return circuit === undefined || circuit === 'superhet'
		? null
		: `these tests are for superhets, and the card says ${circuit}: there is no IF and no image to be tested`;
}

/** Whether the generator comes to the set through the air: how much of it comes in is not known. */
export function isThroughAir({ antenna }: SetFacts): boolean {
	return antenna === 'loop' || antenna === 'rod';
}

/** The marks of a set's first AM band: where it is aligned, and one between. */
export function testMarks(facts: SetFacts): TestMarks {
	const band = testedBand(facts);
	if (!band) throw new Error('invalid facts: no AM band, expected at least one');
	const { lowMarkHz, highMarkHz } = band;
	const isBroadcast = lowMarkHz < 0.8 * broadcastMiddleHz && highMarkHz > 1.2 * broadcastMiddleHz;
	const betweenHz = Math.round(Math.sqrt(lowMarkHz * highMarkHz) / 1e4) * 1e4;
	return {
		band,
		lowHz: lowMarkHz,
		middleHz: isBroadcast && highMarkHz < 3 * broadcastMiddleHz ? broadcastMiddleHz : betweenHz,
		highHz: highMarkHz,
	};
}
