import type { Estimate } from '#core/numeric/estimate.ts';
import type { LevelReading } from '#record/reading.ts';

/**
 * What full scale of an input is worth, decibels of one volt, from one reading of a known AC voltage.
 * @param knownDbv the voltage at the input, decibels of one volt
 * @param read the input's own reading of it, decibels of full scale
 */
export function fullScaleDbv(knownDbv: Estimate, read: Estimate): Estimate {
	return {
		value: knownDbv.value - read.value,
		uncertainty: Math.hypot(knownDbv.uncertainty ?? 0, read.uncertainty ?? 0),
	};
}

/**
 * A reading of full scale as one of volts. The uncertainty of full scale is common to all readings and cancels in their differences: it stands beside the level, not in it.
 */
export function calibrated(reading: LevelReading, fullScale: Estimate | null): LevelReading {
	if (fullScale === null || reading.reference !== 'dBFS') return reading;
	const { levelDb } = reading;
	return {
		...reading,
		reference: 'dBV',
		fullScaleDbv: { ...fullScale },
		levelDb: levelDb && { ...levelDb, value: levelDb.value + fullScale.value },
	};
}
