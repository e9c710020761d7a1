import { expect, test } from 'vitest';
import { InputFault } from './command.ts';
import { readArguments } from './read-arguments.ts';
import { trackCommand } from './track-command.ts';

function track(line: string): string[] {
	const lines: string[] = [];
	const input = readArguments(line.split(' '), trackCommand.options);
	void trackCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}

interface Tracked {
	readonly pointsHz: readonly number[];
	readonly worstErrorHz: number;
	readonly errors: readonly { readonly dialHz: number; readonly errorHz: number }[];
	readonly oscillator: { readonly inductanceH: number; readonly padderF: number; readonly trimmerF: number };
	readonly antenna: { readonly inductanceH: number };
}

// Computed independently from [terman-tracking]: 596.7, 1,010.5, 1,513.5 kc; 4.675 kc at worst.
test('the best tie points of the broadcast band are printed as one object', () => {
	const [only = '', ...more] = track('--if 455kc --band 540kc-1600kc --best kilocycles --json');
	const { pointsHz, worstErrorHz, errors } = JSON.parse(only) as Tracked;
	expect(more).toEqual([]);
	expect(pointsHz.map((at) => Math.round(at / 1e3))).toEqual([597, 1010, 1514]);
	expect(worstErrorHz).toBeCloseTo(4675, -1);
	expect(errors.length).toBeGreaterThanOrEqual(101);
	expect(errors[0]?.dialHz).toBe(540e3);
	expect(errors.at(-1)?.dialHz).toBe(1600e3);
	expect(Math.max(...errors.map(({ errorHz }) => Math.abs(errorHz)))).toBeCloseTo(worstErrorHz, -1);
});

test('the parts that are printed make the oscillator that the errors say', () => {
	const [only = ''] = track(
		'--if 455kc --band 540kc-1600kc --points 600kc,1000kc,1400kc --gang 365pF --strays 30pF --json',
	);
	const { oscillator, antenna, errors } = JSON.parse(only) as Tracked;
	for (const { dialHz, errorHz } of errors) {
		const gangF = 1 / ((2 * Math.PI * dialHz) ** 2 * antenna.inductanceH) - 30e-12 + oscillator.trimmerF;
		const wholeF = (gangF * oscillator.padderF) / (gangF + oscillator.padderF);
		const oscillatorHz = 1 / (2 * Math.PI * Math.sqrt(oscillator.inductanceH * wholeF));
		expect(Math.abs(oscillatorHz - 455e3 - dialHz - errorHz)).toBeLessThan(1);
	}
});

test('older forms are marked as what they are', () => {
	expect(track('--if 455kc --band 540kc-1600kc --points 600kc,1400kc --form trimmer').join('\n')).toContain(
		'Two-point form, trimmer alone',
	);
	expect(track('--if 455kc --band 540kc-1600kc --cut-plates 140mmf').join('\n')).toContain('True only at the IF');
});

test('what cannot be made is refused with its reason', () => {
	const refused = (line: string): string => {
		try {
			track(line);
		} catch (error) {
			if (error instanceof InputFault) return error.message;
			throw error;
		}
		return 'not refused';
	};
	expect(refused('--if 455kc --band 540kc-1600kc --strays 200pF')).toContain('does not reach the high end');
	expect(refused('--if 455kc --band 540kc-1600kc --oscillator below --best loss')).not.toBe('not refused');
	expect(refused('--if 1000kc --band 540kc-1600kc --oscillator below')).toContain('above the IF');
	expect(refused('--if 455kc --band 540kc-1600kc --points 600kc')).toContain('three different frequencies');
	expect(refused('--if 455 --band 540kc-1600kc')).toContain('--if');
});
