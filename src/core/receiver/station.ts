import { createRandom } from '#core/numeric/random.ts';
import type { SetSignal } from './signal.ts';

/** Stations that a simulated set receives, hertz: channels of 10 kc, spread over the band and at twice usual intermediate frequencies (chosen). */
export const stationsHz = [600e3, 710e3, 860e3, 910e3, 1000e3, 1190e3, 1410e3, 1550e3] as const;

/** A local station at the end of a short aerial, volts behind the dummy antenna (chosen). */
const stationV = 3e-3;
/** A syllable of its programme; of every so many syllables the first ones are a pause (chosen). */
const syllableMs = 150;
const spell = 60;
const pause = 28;
const mostDepth = 0.6;

/** A station and what its programme does at a moment: syllables, each of its own pitch and strength, with a pause now and then. */
export function stationSignal(frequencyHz: number, atMs: number): SetSignal {
	const syllable = Math.floor(atMs / syllableMs);
	const random = createRandom(syllable);
	const isPause = syllable % spell < pause;
	return {
		frequencyHz,
		levelV: stationV,
		into: 'antenna',
		toneHz: 200 * 10 ** random.uniform(),
		depth: isPause ? 0 : mostDepth * random.uniform(),
	};
}
