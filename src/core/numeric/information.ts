/** Uncertainty of chances that add up to 1, in bits: Shannon's entropy [shannon-1948]. */
export function entropyBits(chances: readonly number[]): number {
	return -chances.reduce((sum, chance) => (chance > 0 ? sum + chance * Math.log2(chance) : sum), 0);
}

/**
 * What an observation tells on the average about which of several things is so, in bits: mutual information [shannon-1948].
 * @param chances of the things, adding up to 1
 * @param shares of the observation's outcomes, one row a thing, each row adding up to 1
 */
export function mutualInformationBits(chances: readonly number[], shares: readonly (readonly number[])[]): number {
	const count = shares[0]?.length ?? 0;
	const outcomes = Array.from({ length: count }, (_, at) =>
		chances.reduce((sum, chance, k) => sum + chance * (shares[k]?.[at] ?? 0), 0),
	);
	const left = chances.reduce((sum, chance, k) => sum + chance * entropyBits(shares[k] ?? []), 0);
	return Math.max(0, entropyBits(outcomes) - left);
}
