/** Whether an antenna circuit is on its signal, by three readings: as it is, with a little added, with as much taken away. */
import type { Estimate } from '#core/numeric/estimate.ts';

/** What three readings say. */
export type AntennaTest =
	/** Decibels to be had by tuning the circuit, and whether it wants more or less of what was added. */
	| { readonly kind: 'found'; readonly toGainDb: Estimate; readonly wants: 'more' | 'less' | 'neither' }
	/** The peak lies too far off, or the three readings too near together, to say. */
	| { readonly kind: 'step too small' };

/** Beyond this many steps off the peak the three readings no longer know where it lies (chosen: at two a quarter of the tests fail). */
const farthestSteps = 1.5;

/**
 * The test of three outputs in decibels, taken with equal steps either way and the generator left alone, weak enough for the AVC to rest.
 * A single circuit loses as 1 + y^2 with y its detuning in half-widths: three readings give the parabola.
 * @param readingDb standard uncertainty of one reading
 */
export function antennaTest(asIsDb: number, addedDb: number, takenDb: number, readingDb: number): AntennaTest {
	// Powers lost, against the reading as it is.
	const power = (levelDb: number): number => 10 ** ((asIsDb - levelDb) / 10);
	const [plus, minus] = [power(addedDb), power(takenDb)];
	const a = (plus + minus - 2) / 2;
	const b = (plus - minus) / 4;
	const perDb = (Math.LN10 / 10) * readingDb;
	const aUncertainty = (perDb / 2) * Math.hypot(plus, minus, 2);
	if (!(a > 3 * aUncertainty) || Math.abs(b) > farthestSteps * a || b * b >= a) return { kind: 'step too small' };
	const gainOf = (values: readonly [number, number, number]): number => {
		const [asIs, added, taken] = values;
		const bend = (added + taken - 2 * asIs) / 2;
		const lean = (added - taken) / 4;
		return 10 * Math.log10(asIs / (asIs - (lean * lean) / bend));
	};
	const given = [1, plus, minus] as const;
	const toGainDb = gainOf(given);
	const variance = given.reduce((sum, value, place) => {
		const moved = given.map((one, k) => (k === place ? one + 1e-5 : one)) as unknown as typeof given;
		return sum + (((gainOf(moved) - toGainDb) / 1e-5) * perDb * value) ** 2;
	}, 0);
	const bUncertainty = (perDb / 4) * Math.hypot(plus, minus);
	return {
		kind: 'found',
		toGainDb: { value: toGainDb, uncertainty: Math.sqrt(variance) },
		// Less loss with something added: the circuit wants more of it.
		wants: Math.abs(b) < 3 * bUncertainty ? 'neither' : b < 0 ? 'more' : 'less',
	};
}
