/** What the coach says while an adjuster is turned. */
export interface CoachAdvice {
	readonly kind: 'begin' | 'first' | 'best' | 'near' | 'past';
	/** Decibels off the best so far, 0 or more; `null` before the first reading. */
	readonly offDb: number | null;
	/** The best so far, on the readings' own scale. */
	readonly bestDb: number | null;
}

/** Least fall that is told, and in how many of its own uncertainties: the detector's settings, chosen in simulated turns at 20 dB of tone over noise. */
const leastFallDb = 0.3;
const fallSigmas = 4;

/**
 * Standard deviation of one reading in decibels, from second differences, so that a steady rise or fall does not count as noise.
 * For white noise the second difference has six times its variance; the median of its size stands 0.6745 deviations up.
 * @example scatterDb([0, 1, 2, 3]) // => 0
 */
export function scatterDb(levelsDb: readonly number[]): number {
	const sizes = levelsDb
		.slice(2)
		.map((level, index) => Math.abs(level - 2 * (levelsDb[index + 1] as number) + (levelsDb[index] as number)))
		.sort((a, b) => a - b);
	return (sizes[sizes.length >> 1] ?? 0) / (0.6745 * Math.sqrt(6));
}

/**
 * The coach's word on the readings taken while one adjuster is turned: the mean of the last few against the best such mean.
 * Level alone cannot tell a turn past the peak from a turn the wrong way: "past" is right in both cases, since the way back is the same.
 * @param levelsDb oldest first
 * @param framesAveraged 5 for a live meter of ten readings a second, 1 for typed readings
 * @param uncertaintyDb standard uncertainty that the meter states for one reading
 */
export function coachAdvice(
	levelsDb: readonly number[],
	aim: 'maximum' | 'minimum',
	framesAveraged: number,
	uncertaintyDb: number,
): CoachAdvice {
	if (levelsDb.length < framesAveraged) return { kind: 'begin', offDb: null, bestDb: null };
	const sign = aim === 'maximum' ? 1 : -1;
	let sum = 0;
	let best = Number.NEGATIVE_INFINITY;
	let now = best;
	for (const [index, levelDb] of levelsDb.entries()) {
		sum += sign * levelDb;
		if (index >= framesAveraged) sum -= sign * (levelsDb[index - framesAveraged] as number);
		if (index < framesAveraged - 1) continue;
		now = sum / framesAveraged;
		best = Math.max(best, now);
	}
	const offDb = best - now;
	const sigmaDb = Math.max(uncertaintyDb, framesAveraged > 1 ? scatterDb(levelsDb.slice(-50)) : 0);
	const thresholdDb = Math.max(leastFallDb, fallSigmas * sigmaDb * Math.sqrt(2 / framesAveraged));
	const kind =
		levelsDb.length < 2 * framesAveraged ? 'first' : offDb > thresholdDb ? 'past' : offDb === 0 ? 'best' : 'near';
	return { kind, offDb, bestDb: sign * best };
}

/** What to do about a reading that cannot be trusted; `held`: readings rest while the program speaks. */
const distrustWords: Readonly<Record<'clipped' | 'no tone' | 'too weak' | 'held', string>> = {
	clipped: 'Too strong for the meter: less from the generator, or less volume.',
	'no tone': 'No tone is heard: is the generator on, modulated and on its frequency?',
	'too weak': 'Too weak to read: more from the generator.',
	held: 'Readings rest for a moment.',
};

/** The coach's word while a reading cannot be trusted. */
export function untrustedWords(trust: keyof typeof distrustWords): string {
	return distrustWords[trust];
}

/**
 * The coach's advice as a sentence.
 * @example coachWords({ kind: 'past', offDb: 1, bestDb: -20 }, 'maximum', 'T1') // => 'Falling: turn T1 the other way, back to the best.'
 */
export function coachWords({ kind }: CoachAdvice, aim: 'maximum' | 'minimum', name: string): string {
	const [off, target] = aim === 'maximum' ? ['Falling', 'best'] : ['Rising', 'least'];
	switch (kind) {
		case 'begin':
			return `Hand off ${name}. The first reading is the reference.`;
		case 'first':
			return `Turn ${name} slowly.`;
		case 'best':
			return `The ${target} so far. Go on the same way.`;
		case 'near':
			return `Near the ${target}. Go on slowly.`;
		case 'past':
			return `${off}: turn ${name} the other way, back to the ${target}.`;
	}
}
