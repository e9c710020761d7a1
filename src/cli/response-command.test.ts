import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { ResponseAnswer } from '#advice/response/response-answer.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import { createRandom } from '#core/numeric/random.ts';
import {
	asProposed,
	drawnStrip,
	evenlySpaced,
	ifHz,
	nudgedStrip,
	readings,
	trueLevelDb,
} from '../../test/random-strip.ts';
import { InputFault } from './command.ts';
import { readArguments } from './read-arguments.ts';
import { responseCommand } from './response-command.ts';

let folder: string;
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), 'response-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function run(words: readonly string[]): string[] {
	const lines: string[] = [];
	const input = readArguments(words, responseCommand.options);
	void responseCommand.run(input, { line: (text) => lines.push(text), notice: () => undefined });
	return lines;
}
const answered = (...words: string[]) => JSON.parse(run([...words, '--json']).join('\n')) as ResponseAnswer;

let count = 0;
function written(text: string): string {
	count++;
	const path = join(folder, `sweep-${count}.csv`);
	writeFileSync(path, text);
	return path;
}

const base = 'examples/if-curve.csv';
const nudges = [
	'--nudge',
	'T1-primary=examples/if-curve-after-t1-primary.csv',
	'--nudge',
	'T2-secondary=examples/if-curve-after-t2-secondary.csv',
];

// The example was drawn from a strip whose circuits, after both nudges, are at 456.3, 455.9, 458.4 and 452.0 kc; invented.
test('the example names the adjusters, their ways, and the partners without a way', () => {
	const { adjusters, refused, advice } = answered(base, '--if', '455kc', '--meter', '0.1dB', ...nudges);
	expect(refused).toBeUndefined();
	expect(adjusters.map(({ name }) => name)).toEqual([
		'T1-primary',
		'T2-secondary',
		'partner of T1-primary',
		'partner of T2-secondary',
	]);
	for (const [place, truthHz] of [456.3e3, 452e3, 455.9e3, 458.4e3].entries()) {
		const { frequencyHz, offHz } = adjusters[place] as (typeof adjusters)[number];
		expect(Math.abs(frequencyHz.value - truthHz)).toBeLessThan(4 * (frequencyHz.uncertainty ?? 0));
		expect(offHz).toBeCloseTo(frequencyHz.value - 455e3, 6);
	}
	expect(adjusters.map(({ direction }) => direction)).toEqual(['opposite', 'opposite', undefined, undefined]);
	expect(advice.at(-1)?.words).toContain('proof');
});

/** A table of what a strip reads. */
const table = (points: readonly CurvePoint[]): string =>
	written(
		`kHz,dB\n${points.map(({ frequencyHz, levelDb }) => `${frequencyHz / 1e3},${levelDb.toFixed(2)}`).join('\n')}\n`,
	);

// A strip drawn by seeded chance, so that its circuits are known; the hand stops 300 c past each advised place.
test('what is read after a setting stays in the fit, and a proof after it, in the order given', () => {
	const { base: curve, nudges: turned, endsHz } = nudgedStrip(41, [0, 1, 2, 3], asProposed, 0.1, 0);
	const random = createRandom(41);
	const strip = drawnStrip(createRandom(41), 0);
	for (const [circuit, endHz] of endsHz.entries()) strip[circuit] = endHz / ifHz - 1;
	const topDb = Math.max(...curve.map(({ levelDb }) => levelDb));
	const read = (frequenciesHz: readonly number[]) =>
		readings(random, trueLevelDb([...strip]), frequenciesHz, 0.1, topDb - 50);
	const given = [table(curve), '--if', '455kc', '--meter', '0.1dB'];
	for (const { name, points } of turned) given.push('--nudge', `${name}=${table(points)}`);
	for (const { adjuster, moveHz, generatorHz } of answered(...given).advice) {
		if (adjuster === undefined || moveHz === undefined || generatorHz === undefined) continue;
		const circuit = Number(adjuster.replace('adjuster ', ''));
		strip[circuit] = (strip[circuit] as number) + (moveHz + 300) / ifHz;
		given.push('--setting', `${adjuster}=${table(read([generatorHz - 4e3, generatorHz, generatorHz + 4e3]))}`);
	}
	const { adjusters, refused, asymmetryDb5kHz } = answered(...given, '--proof', table(read(evenlySpaced(31, 20e3))));
	expect(refused).toBeUndefined();
	expect(adjusters).toHaveLength(4);
	for (const { name, frequencyHz } of adjusters) {
		const trueHz = ifHz * (1 + (strip[Number(name.replace('adjuster ', ''))] as number));
		expect(Math.abs(frequencyHz.value - trueHz)).toBeLessThan(Math.max(4 * (frequencyHz.uncertainty ?? 0), 300));
	}
	// The curve that is told of is the proof's.
	const trueDb = trueLevelDb(strip)(ifHz + 5e3) - trueLevelDb(strip)(ifHz - 5e3);
	expect(Math.abs((asymmetryDb5kHz?.value ?? 99) - trueDb)).toBeLessThan(1);
	const [again] = turned.map(({ name }) => name);
	expect(() => answered(...given, '--setting', `${again}=${table(read([450e3]))}`)).toThrow(/advise no setting/);
});

test('a person is told in lines what a program is told in keys', () => {
	const lines = run([base, '--if', '455kc', ...nudges]).join('\n');
	for (const words of ['peak', '6 dB width', 'T1-primary', 'turn back', 'Set the generator to'])
		expect(lines).toContain(words);
});

test('a single circuit in a Touchstone file is read, and its width is that of its Q', () => {
	// |A| = 1 / sqrt(1 + 4 a^2): Q 50 at 455 kc is 9.1 kc wide at 3.01 dB.
	const rows = Array.from({ length: 41 }, (_, index) => {
		const frequencyHz = 435e3 + 1000 * index;
		const a = (50 * (frequencyHz - 455e3)) / 455e3;
		return `${frequencyHz} ${-10 * Math.log10(1 + 4 * a * a)} 0`;
	});
	const path = join(folder, 'one.s1p');
	writeFileSync(path, `# Hz S DB R 50\n${rows.join('\n')}\n`);
	const width3 = answered(path, '--if', '455kc', '--tone', 'none', '--meter', '0.05dB', '--parameter', 'S11')
		.bandwidths[0];
	expect(Math.abs((width3?.widthHz.value ?? 0) - 9.08e3)).toBeLessThan(150);
});

test('what cannot be used is refused with file, line and what to give', () => {
	const faults: readonly (readonly [string[], RegExp])[] = [
		[[], /give one base sweep/],
		[[base], /--if is missing/],
		[[base, '--if', '455'], /--if: cannot read a frequency from "455"/],
		[['none.csv', '--if', '455kc'], /cannot open none\.csv/],
		[[written('kHz,dB\n450,-3\n451,x\n'), '--if', '455kc'], /sweep-\d+\.csv: line 3, column 2/],
		[[written('kHz,V\n450,1\n451,0\n'), '--if', '455kc'], /line 3: 0 has no level/],
		[[written('kHz,dB\n450,-3\n451,-2\n452,-1\n'), '--if', '455kc'], /3 points/],
		[[written('MHz,dB\n450,-3\n451,-2\n452,-1\n453,-1\n454,0\n'), '--if', '455kc'], /far from the IF/],
		[[base, '--if', '455kc', '--nudge', 'T1'], /--nudge: cannot read "T1"/],
		[[base, '--if', '455kc', '--setting', `T1=${base}`], /--setting .*name no adjuster: give --nudge/],
		[
			[base, '--if', '455kc', ...nudges, '--setting', `T9=${base}`],
			/advise settings of T1-primary.*free.* --nudge.*--proof/,
		],
		[[base, '--if', '455kc', '--proof', written('kHz,dB\n450,-3\n451,-2\n')], /2 points/],
		[[base, '--if', '455kc', '--aim', 'pretty'], /--aim/],
		[[base, '--if', '455kc', '--meter', '0dB'], /--meter/],
	];
	for (const [words, fault] of faults) {
		expect(() => run(words)).toThrow(InputFault);
		expect(() => run(words)).toThrow(fault);
	}
});

test('a weaker second sweep shows AVC', () => {
	const curve = (byDb: number) =>
		Array.from({ length: 31 }, (_, index) => {
			const offsetHz = -15e3 + 1000 * index;
			const inputDb = byDb - 20 * Math.log10(1 + (offsetHz / 4e3) ** 2);
			// AVC that turns decibels above -20 dB into half as many.
			const readDb = inputDb > -20 ? -20 + (inputDb + 20) / 2 : inputDb;
			return `${(455e3 + offsetHz) / 1e3},${readDb.toFixed(2)}`;
		}).join('\n');
	const path = written(`kHz,dB\n${curve(0)}\n`);
	const second = join(folder, 'second.csv');
	writeFileSync(second, `kHz,dB\n${curve(-6)}\n`);
	const { compression, findings } = answered(path, '--if', '455kc', '--meter', '0.05dB', '--second-level', second);
	expect(compression?.of6Db).toBeCloseTo(3, 1);
	expect(findings.map(({ kind }) => kind)).toContain('signal too strong');
});
