/** Seeded chance: the same seed gives the same numbers on every machine. */
export interface Random {
	/** Uniform in 0 to 1, 1 excluded. */
	uniform(): number;
	/** Normal deviate, mean 0, standard deviation 1. */
	gaussian(): number;
}

/**
 * Chance from a seed; any whole number may be the seed.
 * Uniform numbers by Mulberry32 (32-bit state, chosen: short, passes common batteries, ample for simulation),
 * normal ones by the polar method.
 * @example createRandom(1).uniform() === createRandom(1).uniform() // => true
 */
export function createRandom(seed: number): Random {
	// A whole number of 32 bits with its sign, and room for a deviate: what is drawn for each sample of a sound asks for no memory.
	let state = seed | 0;
	const spare = new Float64Array(1);
	let hasSpare = false;
	const uniform = (): number => {
		state = (state + 0x6d2b79f5) | 0;
		let mixed = Math.imul(state ^ (state >>> 15), state | 1);
		mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
	};
	const gaussian = (): number => {
		if (hasSpare) {
			hasSpare = false;
			return spare[0] as number;
		}
		for (;;) {
			const across = 2 * uniform() - 1;
			const up = 2 * uniform() - 1;
			const square = across * across + up * up;
			if (square > 0 && square < 1) {
				const scale = Math.sqrt((-2 * Math.log(square)) / square);
				spare[0] = up * scale;
				hasSpare = true;
				return across * scale;
			}
		}
	};
	return { uniform, gaussian };
}
