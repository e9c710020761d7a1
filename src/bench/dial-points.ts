import { type KnownGenerator, truthOf } from '#advice/generator-place.ts';
import type { DialPoint } from '#core/estimate/dial-solve.ts';
import type { DialWork } from './dial-work.ts';

/** Readings of a band's dial with what the generator really gave, where it was checked. */
export function dialPoints(
	{ readings }: DialWork,
	band: string,
	generators: readonly KnownGenerator[],
): readonly DialPoint[] {
	return readings
		.filter(({ reading }) => reading.band === band)
		.map(({ reading }) => {
			if (reading.source !== 'generator') return reading;
			const own = generators.find(({ name }) => name === (reading.generator ?? ''));
			const { value, uncertainty } = truthOf(own, reading.heardHz);
			return {
				...reading,
				heardHz: value,
				heardUncertaintyHz: Math.hypot(reading.heardUncertaintyHz, uncertainty ?? 0),
			};
		});
}
