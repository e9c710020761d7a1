/** Readings of the standard tests with what the generator really gave, where its dial was checked. */
import type { TestGear, TestReading } from '#record/test-reading.ts';
import { type KnownGenerator, truthOf } from '../generator-place.ts';
import { withinLimit } from './finding.ts';

/** Gear and readings of one moment, the generator's dial corrected; the readings themselves stay as they were kept. */
export function withGeneratorTruth(
	gear: TestGear,
	readings: readonly TestReading[],
	generators: readonly KnownGenerator[],
): { readonly gear: TestGear; readonly readings: readonly TestReading[] } {
	const own = generators.find(({ name }) => name !== '' && name === gear.generator.trim());
	if (!own) return { gear, readings };
	const uncertaintiesHz: number[] = [];
	const truthHz = (readHz: number): number => {
		const { value, uncertainty } = truthOf(own, readHz);
		uncertaintiesHz.push(uncertainty ?? 0);
		return value;
	};
	const corrected = readings.map((reading): TestReading => {
		if (reading.moment !== gear.moment) return reading;
		// The oscillator's frequency is not read from the generator.
		const isOfGenerator = reading.quantity === 'frequency' && reading.test !== 'oscillator';
		return {
			...reading,
			...(isOfGenerator && reading.value !== null ? { value: truthHz(reading.value) } : {}),
			...(reading.generatorHz === undefined ? {} : { generatorHz: truthHz(reading.generatorHz) }),
		};
	});
	const limitHz = Math.max(0, ...uncertaintiesHz) / withinLimit(1);
	return { gear: { ...gear, frequencyLimitHz: Math.hypot(gear.frequencyLimitHz, limitHz) }, readings: corrected };
}
