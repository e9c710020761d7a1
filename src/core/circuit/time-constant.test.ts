import { expect, test } from 'vitest';
import { timeConstant } from './time-constant.ts';

// Closed forms by hand: 1 M and 0.1 uF are 0.1 s; 1/(2 pi 0.1) = 1.5915 c; a tone 251.3 times above that is 48.0 dB down; e^-3 = 0.0498, so 5 % is left after 2.996 time constants.
test('a time constant, its corner and what it leaves of a tone', () => {
	const avc = timeConstant(1e6, 0.1e-6);
	expect(avc.constantS).toBeCloseTo(0.1, 9);
	expect(avc.cornerHz).toBeCloseTo(1.5915, 4);
	expect(avc.tone400Db).toBeCloseTo(-48.0, 1);
	expect(avc.settledS).toBeCloseTo(0.2996, 4);
	expect(() => timeConstant(0, 1e-6)).toThrow('invalid time constant');
});
