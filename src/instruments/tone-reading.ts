import { averagedCycles } from '#core/signal/averaged-cycle.ts';
import { toneFrame } from '#core/signal/frame.ts';
import type { LevelReading } from '#record/reading.ts';

/** Where samples come from and what full scale means. */
export interface ToneSource {
	readonly instrument: string;
	readonly sampleRateHz: number;
	/** The generator's tone. */
	readonly toneHz: number;
	/** Level of a full-scale sine in dBV where it is known; otherwise levels count from full scale. */
	readonly fullScaleDbv: number | null;
}

/** A reading with the wave that it was taken from. */
export interface ToneReading {
	readonly reading: LevelReading;
	/** Two cycles of the tone, averaged; `null` without a tone. */
	readonly picture: Float64Array | null;
}

/**
 * The level of the tone in one frame of samples, as a reading of the moment at the frame's middle.
 * @param atMs when the frame ended
 */
export function toneReading(samples: ArrayLike<number>, atMs: number, source: ToneSource): ToneReading {
	const { instrument, sampleRateHz, toneHz, fullScaleDbv } = source;
	const frame = toneFrame(samples, sampleRateHz, toneHz);
	const levelDb = frame.levelDbfs && {
		...frame.levelDbfs,
		value: frame.levelDbfs.value + (fullScaleDbv ?? 0),
	};
	return {
		reading: {
			kind: 'level',
			atMs: atMs - (500 * samples.length) / sampleRateHz,
			instrument,
			levelDb,
			reference: fullScaleDbv === null ? 'dBFS' : 'dBV',
			quantity: 'tone',
			trust: frame.kind,
			...(frame.toneHz ? { toneHz: frame.toneHz } : {}),
			...(Number.isFinite(frame.snrDb) ? { snrDb: frame.snrDb } : {}),
		},
		picture: frame.toneHz ? averagedCycles(samples, sampleRateHz, frame.toneHz.value) : null,
	};
}
