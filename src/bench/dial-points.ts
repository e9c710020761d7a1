import type { DialPoint } from '#core/estimate/dial-solve.ts';
import { generatorDial, trueFor } from '#core/estimate/generator-dial.ts';
import type { DialWork } from './dial-work.ts';

/** Readings of a band's dial with what the generator really gave, where it was checked. */
export function dialPoints(work: DialWork, band: string, nowMs: number): readonly DialPoint[] {
	const generator = generatorDial(
		work.checks.map(({ check, atMs }) => ({
			dialHz: check.readsHz,
			trueHz: check.trueHz,
			uncertaintyHz: check.uncertaintyHz,
			ageS: Math.max(nowMs - atMs, 0) / 1e3,
		})),
	);
	return work.readings
		.filter(({ reading }) => reading.band === band)
		.map(({ reading }) => {
			if (reading.source !== 'generator' || generator.marks.length === 0) return reading;
			const { value, uncertainty } = trueFor(generator, reading.heardHz);
			return {
				...reading,
				heardHz: value,
				heardUncertaintyHz: Math.hypot(reading.heardUncertaintyHz, uncertainty ?? 0),
			};
		});
}
