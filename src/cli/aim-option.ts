import type { Aim } from '#core/estimate/aim.ts';
import { InputFault } from './command.ts';
import { readQuantity } from './input.ts';

/** What is wanted of an IF curve, by the option `--aim`; every circuit on the IF where it was not given. */
export function aimOf(given: unknown): Aim {
	if (given === undefined || given === 'on-if') return { kind: 'on IF' };
	if (given === 'symmetrical') return { kind: 'symmetrical' };
	const width6Hz = readQuantity('frequency', '--aim', String(given));
	if (width6Hz < 2e3 || width6Hz > 40e3)
		throw new InputFault('--aim: give on-if, symmetrical, or a width at 6 dB from 2 kc to 40 kc');
	return { kind: 'width', width6Hz };
}
