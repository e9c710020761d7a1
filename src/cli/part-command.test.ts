import { expect, test } from 'vitest';
import { InputFault } from './command.ts';
import { partCommand } from './part-command.ts';
import { readArguments } from './read-arguments.ts';

function part(line: string): { lines: string[]; json: Record<string, never> } {
	const run = (words: string[]) => {
		const lines: string[] = [];
		const input = readArguments(words, partCommand.options);
		void partCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
		return lines;
	};
	const words = line.split(' ');
	return { lines: run(words), json: JSON.parse(run([...words, '--json']).join('\n')) };
}

// [helfrick-cooper] ex. 6-4, transcription: 2 Mc with 460 pF, 4 Mc with 100 pF: 20 pF, 13.19 uH.
test('two resonances of a published coil give its inductance and self-capacity', () => {
	const { inductanceH, selfCapacitanceF } = part('coil --resonances 4Mc@100mmf,2Mc@460mmf').json as never as {
		inductanceH: { value: number };
		selfCapacitanceF: { value: number };
	};
	expect(selfCapacitanceF.value * 1e12).toBeCloseTo(20, 6);
	expect(Math.abs(inductanceH.value * 1e6 - 13.19)).toBeLessThan(0.01);
});

// [frenzel] ex. 2.22, transcription: 300 ohms of reactance at 10 Mc, Q 30, 1 Mc wanted: 4,497.5 ohms.
test('the damping resistor of a published circuit comes out', () => {
	const shuntOhm = Number(part('coil --width 1Mc --q 30 --inductance 4.774648uH --if 10Mc').json.shuntOhm);
	expect(Math.abs(shuntOhm - 4497.5)).toBeLessThan(0.1);
});

// Closed form: 1.1 mH at 455 kc takes 111.23 pF in all; less 15 of strays and 25 of trimmer 71.2: 68 mmf of the E12 series alone peaks.
test('an IF winding gets one part where one part peaks, and the answer says what to write', () => {
	const given = 'mica --if 455kc --inductance 1.1mH --strays 15mmf --trimmer 5mmf-45mmf';
	const { json, lines } = part(given);
	expect(Number(json.wantedF) * 1e12).toBeCloseTo(71.228, 2);
	expect(Number(json.fittedF) * 1e12).toBeCloseTo(68, 6);
	expect(json.canPeak).toBe(true);
	expect(lines.join('\n')).toMatch(/Sheet: IF winding 1\.1 mH at 455 kc.*68 mmf/);
	expect(lines.at(-1)).toBe('Local codes and licensed practice come first.');
	expect(part(`${given} --fit 100mmf`).json.canPeak).toBe(false);
	expect(part('mica --if 455kc --inductance 11mH --strays 15mmf --slug 15%').json.canPeak).toBe(false);
});

// Popular Electronics, August 1956, seen [rma-resistors].
test('an old resistor is read from the terminal', () => {
	expect(part('code resistor green gray red').lines[0]).toBe('resistor  5.8 k, \u00b120 %');
});

test('what cannot be used is refused with what to give instead', () => {
	for (const [line, words] of [
		['padding', /no part "padding": give one of mica/],
		['pair 373', /cannot read a part from "373"/],
		['pair', /give one wanted value/],
		['mica --if 455 --inductance 1.1mH --strays 15mmf --slug 15%', /--if: cannot read a frequency/],
		['mica --if 455kc --inductance 1.1mH --strays 15mmf', /either --trimmer/],
		['coil --turns 100 --diameter 30mm', /--length is missing/],
		['coil --resonances 2Mc@460mmf', /give two of different frequency/],
		['coil --resonances 2Mc@100mmf,4Mc@460mmf', /the higher frequency has the smaller capacitor/],
		['code mica none none none none none none', /no colour is given/],
		['coil --width 2kc --q 80 --inductance 1.1mH --if 455kc', /5\.7 kc wide already/],
		['attenuator --loss 0dB', /--loss: give above 0/],
		['code mica white brown', /3 dots, or 6 dots/],
		['code resistor mauve grey red', /"mauve" is no colour/],
		['pair 100mmf --drawer ,', /--drawer: 0 values/],
	] as const) {
		expect(() => part(line), line).toThrow(InputFault);
		expect(() => part(line), line).toThrow(words);
	}
});

// Independent evaluation of three-point tracking: 365 mmf section, 30 of strays, 600, 1,000 and 1,400 kc, IF 455 kc, trimmer at the gang with 8 mmf across the coil: 415 mmf, 120.1 uH, 32.4 mmf.
test('the padder of a usual set comes out, and a wrong one says what it leaves', () => {
	const given =
		'padder --if 455kc --band 540kc-1600kc --gang 365mmf --strays 30mmf --other-strays 8mmf --points 600kc,1000kc,1400kc';
	const { json, lines } = part(given);
	expect(Math.abs(Number(json.wantedF) * 1e12 - 415)).toBeLessThan(1);
	expect(Number(json.bestWorstErrorHz)).toBeCloseTo(11657, -1);
	expect(lines.join('\n')).toContain('Padder 415 mmf');
	const best = Number(part(`${given} --fit 415mmf --tolerance 0.1%`).json.worstErrorHz);
	const wrong = Number(part(`${given} --fit 560mmf --tolerance 0.1%`).json.worstErrorHz);
	expect(Math.abs(best - 11657)).toBeLessThan(200);
	expect(wrong).toBeGreaterThan(best + 2000);
	expect(() => part('padder --if 455kc --band 540kc-1600kc --gang 365mmf --strays 200mmf')).toThrow(InputFault);
});
