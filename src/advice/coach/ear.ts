/** The level as a sound: the pitch at the best, and the decibels that halve it. */
const bestPitchHz = 880;
const octaveDb = 6;
const pitchRangeHz = { low: 110, high: 1760 } as const;
/** Clicks a second at the best, and the decibels that halve their rate. */
const bestClicksPerS = 12;
const halvingDb = 3;
const leastClicksPerS = 0.7;
/** Where clicks are heard well and small speakers give them. */
const clickRegionHz = 2200;

/**
 * Pitch that follows the level, hertz: an octave down for each 6 dB off the best.
 * @example pitchHz(6) // => 440
 */
export function pitchHz(offDb: number): number {
	const wanted = bestPitchHz * 2 ** (-offDb / octaveDb);
	return Math.min(Math.max(wanted, pitchRangeHz.low), pitchRangeHz.high);
}

/**
 * Clicks a second that follow the level: half as many for each 3 dB off the best.
 * @example clicksPerS(3) // => 6
 */
export function clicksPerS(offDb: number): number {
	return Math.max(leastClicksPerS, bestClicksPerS * 2 ** (-Math.max(0, offDb) / halvingDb));
}

/**
 * Pitch of the clicks, hertz: half way between two harmonics of the tone, so that a microphone that hears them takes them neither for the tone nor for its distortion.
 * @example clickHz(400) // => 2200
 */
export function clickHz(toneHz: number): number {
	return (Math.floor(clickRegionHz / toneHz) + 0.5) * toneHz;
}
