import { expect, test } from 'vitest';
import type { LevelReading } from '#record/reading.ts';
import { calibrated, fullScaleDbv } from './calibration.ts';

const heard: LevelReading = {
	kind: 'level',
	atMs: 0,
	instrument: 'line in',
	levelDb: { value: -20, uncertainty: 0.03 },
	reference: 'dBFS',
	quantity: 'tone',
	trust: 'ok',
};

// By hand: 0.5 V is -6.0206 dB of a volt; read as -14 dB of full scale, full scale is 7.9794 dB of a volt, 2.506 V.
test('a known voltage makes volts of full scale, and the differences stay as they were', () => {
	const fullScale = fullScaleDbv({ value: -6.0206, uncertainty: 0.05 }, { value: -14, uncertainty: 0.03 });
	expect(fullScale.value).toBeCloseTo(7.9794, 4);
	expect(fullScale.uncertainty).toBeCloseTo(0.0583, 4);
	const reading = calibrated(heard, fullScale);
	expect(reading).toMatchObject({ reference: 'dBV', fullScaleDbv: fullScale });
	expect(reading.levelDb?.value).toBeCloseTo(-12.0206, 4);
	expect(reading.levelDb?.uncertainty).toBe(0.03);
});

test('without one, and for a level that is not of full scale, nothing is changed', () => {
	expect(calibrated(heard, null)).toBe(heard);
	const typed = { ...heard, reference: 'dBV' } as const;
	expect(calibrated(typed, { value: 8, uncertainty: 0.1 })).toBe(typed);
	expect(calibrated({ ...heard, levelDb: null, trust: 'no tone' }, { value: 8, uncertainty: 0.1 }).levelDb).toBe(null);
});
