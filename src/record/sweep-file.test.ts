import { expect, test } from 'vitest';
import { parseSweep } from './sweep-file.ts';

const rows = (separator: string, decimal: string, header: string): string =>
	[
		header,
		...[450, 452.5, 455, 457.5, 460].map((f, i) =>
			[f, -([9, 3, 0, 3.5, 10][i] as number)].map((n) => String(n).replace('.', decimal)).join(separator),
		),
	].join('\n');

test('a sweep reads the same in every dialect of table', () => {
	const plain = parseSweep(rows(',', '.', 'kHz,dB'), 'a');
	expect(plain.ok && plain.value.points[3]).toMatchObject({ frequencyHz: 457_500, levelDb: -3.5 });
	for (const text of [
		rows(';', ',', 'frequency kHz;level_dB'),
		rows('\t', ',', 'kc\tdB'),
		rows(';', '.', '"frequency [kc]";"level (dB)"'),
		`\ufeff# a remark\r\n${rows(',', '.', 'frequency_kHz,level dB').replaceAll('\n', '\r\n')}\r\n\r\n`,
	]) {
		const other = parseSweep(text, 'a');
		expect(other.ok && other.value.points.map(({ frequencyHz, levelDb }) => [frequencyHz, levelDb])).toEqual(
			plain.ok && plain.value.points.map(({ frequencyHz, levelDb }) => [frequencyHz, levelDb]),
		);
	}
});

test('volts and watts become decibels, with the uncertainty of their last digit', () => {
	const volts = parseSweep('kc,volts\n450,1.0\n452,10.0\n454,1\n456,1\n458,1', 'a');
	expect(volts.ok && volts.value.points[1]?.levelDb).toBeCloseTo(20, 9);
	// Half of 0.1 V in 10 V over the root of three is 0.29 %: 0.0251 dB.
	expect(volts.ok && volts.value.points[1]?.uncertaintyDb).toBeCloseTo(0.02507, 4);
	const watts = parseSweep('Mc,output watts\n.450,1\n.452,0.1\n.454,1\n.456,1\n.458,1', 'a');
	expect(watts.ok && watts.value.points[1]).toMatchObject({ frequencyHz: 452_000, levelDb: -10 });
});

test('rows out of order and repeated frequencies are all kept', () => {
	const swept = parseSweep('kc,dB\n460,-9\n450,-8\n455,0\n455,0.1\n452,-3\n458,-4', 'a');
	expect(swept.ok && swept.value.points.map(({ frequencyHz }) => frequencyHz / 1e3)).toEqual([
		450, 452, 455, 455, 458, 460,
	]);
});

test('what cannot be read is refused whole, with its line and a reason', () => {
	const good = 'kHz,dB\n450,-9\n452,-3\n455,0\n458,-3\n460,-10\n';
	expect(parseSweep(good, 'a').ok).toBe(true);
	for (const [text, reason] of [
		[`${good}462,`, /line 7, column 2 \(dB\) is empty/],
		[`${good}462`, /line 7 has 1 cell/],
		[`${good}462,-12,3`, /line 7 has 3 cells/],
		[`${good}462,abc`, /line 7.*"abc"/],
		[`${good}462,NaN`, /line 7/],
		[`${good}462,Infinity`, /line 7/],
		[`${good}462,1e999`, /line 7.*out of range/],
		[`${good}-462,-12`, /line 7.*out of range/],
		[`${good}462 kc,-12`, /line 7/],
		[`${good}462,-12 V`, /line 7/],
		['450,-9\n452,-3\n455,0\n458,-3\n460,-10', /units/],
		['kHz,furlongs\n450,3', /units/],
		['kHz,kHz\n450,3', /2 columns of frequency/],
		['kHz,dB,V\n450,3,3', /2 columns of level/],
		['kHz,dB\n450,-9\n452,-3\n455,0\n458,-3', /4 points/],
		['kHz,dB\n450,-9\n450,-9\n450,-9\n450,-9\n450,-9', /1 different/],
		['kHz,V\n450,1\n452,0\n455,1\n458,1\n460,1', /line 3: 0 has no level/],
		['', /empty/],
		['\0\0\0', /units/],
		['x'.repeat(10_000_000), /characters/],
	] as const) {
		const read = parseSweep(text, 'a');
		expect(read.ok ? 'was taken' : read.words).toMatch(reason);
	}
});

// Formats, order of the two-port row and noise data by the Touchstone file format specification [touchstone-2].
test('Touchstone files of one and two ports give the same level in DB, MA and RI', () => {
	const cases: readonly (readonly [string, 'S11' | 'S21' | undefined])[] = [
		['! c\n# kHz S DB R 50\n450 -20 0\n451 -20 0\n452 -20 0\n453 -20 0\n454 -20 10 ! end', undefined],
		[`# MHZ S MA R 50\n${[450, 451, 452, 453, 454].map((f) => `${f / 1e3} .5 0 .1 0 .3 0 .4 0`).join('\n')}`, 'S21'],
		[
			'# hz s ri r 75\n' +
				[450, 451, 452, 453, 454].map((f) => `${f}e3 .5 0 .06 .08 .3 0 .4 0`).join('\n') +
				'\n1 2 3 4 5',
			'S21',
		],
		[
			'[Version] 2.0\n# kHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Number of Frequencies] 5\n[Network Data]\n' +
				[450, 451, 452, 453, 454].map((f) => `${f} .5 0\n.9 0 0 .1 .4 0`).join('\n') +
				'\n[End]',
			'S21',
		],
	];
	for (const [text, parameter] of cases) {
		const read = parseSweep(text, 'a', parameter);
		expect(read.ok ? read.value.points.map(({ levelDb }) => levelDb.toFixed(6)) : read.words).toEqual(
			Array(5).fill('-20.000000'),
		);
		expect(read.ok && read.value.points[4]?.frequencyHz).toBe(454_000);
	}
	for (const [text, reason] of [
		['# kHz S DB R 50\n450 -20 0\n451 -20', /cut off/],
		['# kHz S DB R 50\n450 -20 0\n450 -20 0', /does not rise/],
		['# kHz S DB R 50\n450 -20 x', /line 2/],
		['# kHz Z DB R 50\n450 -20 0', /option line|header/],
		['# kHz S RI R 50\n450 0 0', /no level/],
	] as const) {
		const read = parseSweep(text, 'a');
		expect(read.ok ? 'was taken' : read.words).toMatch(reason);
	}
});

test('a slip of the exponent is no point of an IF curve, and its line is told', () => {
	for (const last of ['9e9,-1', '454,-4000', '454,1e300']) {
		const read = parseSweep(`kHz,dB\n450,-1\n451,-1\n452,-1\n453,-1\n${last}`, 'a');
		expect(read.ok ? 'was taken' : read.words).toMatch(/^line 6: .* no point of an IF curve/);
	}
	const trace = parseSweep('# kHz S DB R 50\n450 -1 0\n451 -1 0\n452 -1 0\n453 -1 0\n454 -4000 0', 'a');
	expect(trace.ok ? 'was taken' : trace.words).toMatch(/^line 6: .* no point of an IF curve/);
});
