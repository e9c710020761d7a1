import { levelCorrection, type MeasuredGenerator } from '#advice/marked-level.ts';
import type { KeptSweepPoint, RunSweep } from './sweep-log.ts';

/** What was done to a sweep by the generator's marks. */
export interface TrueSweep {
	/** Points by a generator's marks corrected; all others as they were read. */
	readonly sweep: RunSweep;
	/** Whose table corrected it; `null` where nothing was corrected. */
	readonly corrected: MeasuredGenerator | null;
	/** Points that count whose level comes within 10 dB of the leak. */
	readonly nearLeak: number;
	/** Points that count whose mark the table does not reach. */
	readonly beyond: number;
}

/** A sweep as its generator truly gave it: the curve of a kept reading is the generator's level upside down, and its marks are corrected by what was found of them. */
export function trueSweep(sweep: RunSweep, generators: readonly MeasuredGenerator[]): TrueSweep {
	let corrected: MeasuredGenerator | null = null;
	let [nearLeak, beyond] = [0, 0];
	const points = sweep.points.map((point): KeptSweepPoint => {
		const { mark } = point;
		if (mark === null) return point;
		const correction = levelCorrection(generators, mark.by, { levelDb: -point.levelDb, reference: mark.reference });
		if (correction === null) return point;
		corrected = generators.find(({ name }) => name === mark.by) ?? null;
		if (!point.isStruck) {
			if (correction.isNearLeak) nearLeak++;
			if (correction.isBeyond) beyond++;
		}
		return {
			...point,
			levelDb: point.levelDb - correction.shiftDb,
			uncertaintyDb: Math.hypot(point.uncertaintyDb ?? 0, correction.uncertaintyDb),
		};
	});
	return { sweep: corrected === null ? sweep : { ...sweep, points }, corrected, nearLeak, beyond };
}
