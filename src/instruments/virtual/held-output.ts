import type { LevelReading } from '#record/reading.ts';
import type { VirtualSet } from './virtual-set.ts';

/** Tone at the voice coil that the generator is set for, decibels of one volt: well above the set's noise, below where its output tube bends (chosen). */
const heldDbv = -20;
const leastDbv = -119;
const mostDbv = -1;

const decibels = (set: VirtualSet): number => 20 * Math.log10(set.state.levelV);

/** What the meter shows with the attenuator at a level, far below everything where there is no tone. */
function readingAt(set: VirtualSet, levelDbv: number, atMs: number): number {
	set.changeLevel(levelDbv - decibels(set));
	return set.read(atMs).levelDb?.value ?? -200;
}

/**
 * Sets the virtual generator, as it is placed, for one and the same reading of the meter, and tells its level: the curve upside down, whatever AVC and detector do. `null` where no level gives that reading.
 * The uncertainty is the meter's, divided by how much of a decibel at the generator the meter shows.
 */
export function heldGeneratorLevel(set: VirtualSet, atMs: number): LevelReading | null {
	let low = leastDbv;
	let high = mostDbv;
	if (readingAt(set, high, atMs) < heldDbv || readingAt(set, low, atMs) > heldDbv) return null;
	for (let step = 0; step < 14; step++) {
		const middle = (low + high) / 2;
		if (readingAt(set, middle, atMs) < heldDbv) low = middle;
		else high = middle;
	}
	const value = (low + high) / 2;
	const slope = Math.max(0.05, (readingAt(set, value + 1, atMs) - readingAt(set, value - 1, atMs)) / 2);
	set.changeLevel(value - decibels(set));
	const read = set.read(atMs);
	if (read.levelDb === null) return null;
	return {
		kind: 'level',
		atMs,
		instrument: 'virtual generator',
		reference: 'dBV',
		quantity: 'AC volts',
		trust: 'ok',
		levelDb: {
			value: value - (read.levelDb.value - heldDbv) / slope,
			uncertainty: (read.levelDb.uncertainty ?? 0) / slope,
		},
	};
}
