/** Peak of a tone in samples that hold so many whole cycles of it, by the plain sums of Fourier. */
export function tonePeak(samples: ArrayLike<number>, cycles: number): number {
	let cosine = 0;
	let sine = 0;
	for (let k = 0; k < samples.length; k++) {
		const angle = (2 * Math.PI * cycles * k) / samples.length;
		cosine += (samples[k] ?? 0) * Math.cos(angle);
		sine += (samples[k] ?? 0) * Math.sin(angle);
	}
	return (2 * Math.hypot(cosine, sine)) / samples.length;
}
