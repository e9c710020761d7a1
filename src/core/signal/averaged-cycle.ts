import { fitSines, type SineAmplitudes } from './sine-fit.ts';

/** Places of the picture: two cycles. */
export const cyclePlaces = 128;
const cycles = 2;

/** Empty places take the straight line between their filled neighbours, around the end. */
function filled(sums: Float64Array, counts: Uint32Array): Float64Array {
	const size = sums.length;
	const means = Float64Array.from(sums, (sum, place) => sum / (counts[place] as number));
	return means.map((mean, place) => {
		if (counts[place] !== 0) return mean;
		const distance = (way: 1 | -1): number => {
			let steps = 1;
			while (counts[(place + way * steps + size * steps) % size] === 0 && steps < size) steps++;
			return steps;
		};
		const below = distance(-1);
		const above = distance(1);
		const low = means[(place - below + size) % size] as number;
		const high = means[(place + above) % size] as number;
		return (low * above + high * below) / (below + above);
	});
}

/**
 * Two cycles of the tone as they are on the average of all cycles in the samples, in the samples' own unit: what is not in step with the tone
 * averages out, and the picture stands still, since each begins where the fundamental rises through zero.
 * @param samples at least one cycle
 * @param toneHz the fitted frequency: an error of half a cycle over the samples smears the picture
 */
export function averagedCycles(samples: ArrayLike<number>, sampleRateHz: number, toneHz: number): Float64Array {
	const { sines } = fitSines(samples, sampleRateHz, [toneHz]);
	const { cosine, sine } = sines[0] as SineAmplitudes;
	// cosine cos(a) + sine sin(a) = A sin(a + atan2(cosine, sine)), a counted from the middle of the samples.
	const turnsAtMiddle = Math.atan2(cosine, sine) / (2 * Math.PI);
	const middle = (samples.length - 1) / 2;
	const sums = new Float64Array(cyclePlaces);
	const counts = new Uint32Array(cyclePlaces);
	for (let index = 0; index < samples.length; index++) {
		const turns = ((index - middle) * toneHz) / sampleRateHz + turnsAtMiddle;
		const share = turns / cycles - Math.floor(turns / cycles);
		const place = Math.floor(share * cyclePlaces) % cyclePlaces;
		sums[place] = (sums[place] as number) + (samples[index] as number);
		counts[place] = (counts[place] as number) + 1;
	}
	return filled(sums, counts);
}
