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

/** The marks of a set's first band: where it is aligned, and one between. */
export function testMarks({ bands }: SetFacts): TestMarks {
	const band = bands[0];
	if (!band) throw new Error('invalid facts: no band, expected at least one');
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
