import { attenuatorTable } from '#core/estimate/attenuator-table.ts';
import { dialFor, frequencyFromBeat, generatorDial, isWithinChecks } from '#core/estimate/generator-dial.ts';
import { depthFromEnvelope, depthFromSidebands, leakage, leastAboveLeakDb } from '#core/estimate/generator-level.ts';
import { warmUp } from '#core/estimate/warm-up.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { measureTone } from '#core/signal/tone.ts';
import { estimateWords, inKilocycles, kilocycleWords } from '#record/estimate-words.ts';
import type { Language } from '#record/language.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import { parseWav } from '#record/wav.ts';
import { answerRow } from './answer-row.ts';
import { InputFault } from './command.ts';
import { generatorChecksIn } from './generator-file.ts';
import { readInput } from './input.ts';
import { PartOptions } from './part-options.ts';
import { spokenCommand } from './spoken-command.ts';
import { columnsIn } from './table-columns.ts';

/** What a question about a generator comes to: an object for other programs, lines for the person. */
interface Answer {
	readonly json: object;
	readonly lines: readonly string[];
}

const row = answerRow(11);

type Question = (path: string, options: PartOptions, language: Language) => Answer;

/** Meters are as good as their last digit and this: what a needle or a display wavers by, decibels (chosen). */
const usualMeterDb = 0.2;

function beat(path: string, options: PartOptions, { say, figure, frequency }: Language): Answer {
	const stationHz = options.quantity('frequency', 'station', '1000kc');
	const harmonic = options.has('harmonic') ? options.count('harmonic', '2') : 1;
	if (!Number.isInteger(harmonic)) throw new InputFault('--harmonic: give a whole number, such as 2');
	if (!options.has('side'))
		throw new InputFault(
			'--side is missing: above when the beat rises as the generator is tuned up, below when it falls',
		);
	const side = options.oneOf('side', ['above', 'below'], 'above');
	const recording = parseWav(readInput(path, 'the path of a WAV file with the beat note'));
	if (!recording.ok) throw new InputFault(`${path}: ${recording.words}`);
	const { channels, sampleRateHz } = recording.value;
	const expectedHz = options.quantityOr('frequency', 'tone', null);
	const { toneHz } = measureTone(channels[0] ?? new Float32Array(0), sampleRateHz, expectedHz);
	if (!toneHz)
		throw new InputFault(
			`${path}: no beat between 200 and 3,000 c: tune the generator until a whistle is heard, and record in a pause of the programme`,
		);
	const frequencyHz = frequencyFromBeat(stationHz, harmonic, toneHz, side);
	return {
		json: { beatHz: toneHz, frequencyHz },
		lines: [
			row(say`beat`, figure(estimateWords(toneHz, 'c'))),
			row(
				say`generator`,
				say`${figure(estimateWords(inKilocycles(frequencyHz), 'kc'))}, if the station is on ${frequency(stationHz)} exactly`,
			),
		],
	};
}

function dial(path: string, options: PartOptions, { say, figure, frequency }: Language): Answer {
	const checks = generatorChecksIn(path, options.quantityOr('frequency', 'setting', 0));
	const correction = generatorDial(checks);
	const wantedHz = options.quantityOr('frequency', 'at', null);
	const setDialHz = wantedHz !== null && isWithinChecks(correction, wantedHz) ? dialFor(correction, wantedHz) : null;
	const lines = correction.marks.map(
		({ dialHz, errorHz, uncertaintyHz }) =>
			say`dial ${frequency(dialHz).padStart(10)}  gives ${figure(estimateWords(inKilocycles({ value: errorHz, uncertainty: uncertaintyHz }), 'kc'))} more`,
	);
	if (wantedHz !== null)
		lines.push(
			setDialHz
				? say`for ${frequency(wantedHz)} set the dial to ${figure(kilocycleWords(setDialHz))}`
				: say`${frequency(wantedHz)} is outside the checks: check the dial on both sides of it`,
		);
	return { json: { ...correction, ...(wantedHz === null ? {} : { wantedHz, setDialHz }) }, lines };
}

/** How far a column goes up from its first line to its last; negative when it falls. */
const rises = (values: readonly number[]): number => (values.at(-1) ?? 0) - (values[0] ?? 0);

function steps(path: string, options: PartOptions, { say }: Language): Answer {
	const [marked, read] = columnsIn(path, [
		{ word: 'marked', kinds: ['level'], example: 'marked dB' },
		{ word: 'read', kinds: ['level', 'voltage'], example: 'read dB' },
	]);
	const meterDb = options.quantityOr('level', 'meter', usualMeterDb);
	const levelsDb = read?.values ?? [];
	// Most attenuators are marked with their loss: what is read then falls as the mark rises.
	const asLoss = rises(marked?.values ?? []) * rises(levelsDb) < 0 ? -1 : 1;
	const readings = (marked?.values ?? []).map((markedDb, k) => ({
		markedDb: asLoss * markedDb,
		readDb: levelsDb[k] as number,
		uncertaintyDb: Math.max(read?.digitUncertainties[k] as number, meterDb),
	}));
	if (readings.length < 2) throw new InputFault(`${path}: give at least two places of the attenuator`);
	const { places, fromDb } = attenuatorTable(readings, null);
	const steps = readings.flatMap(({ markedDb }) => places.find((place) => place.markedDb === markedDb) ?? []);
	const mark = (markedDb: number): string =>
		asLoss < 0 ? say`${decimalWords(-markedDb, 1)} dB of loss` : `${decimalWords(markedDb, 1)} dB`;
	return {
		json: { fromDb, steps: steps.map(({ markedDb, errorDb }) => ({ markedDb, errorDb })) },
		lines: [
			say`counted from the place marked ${mark(fromDb ?? 0)}, the best known`,
			...steps
				.filter(({ markedDb }) => markedDb !== fromDb)
				.map(({ markedDb, errorDb }) => {
					const [marked, off] = [mark(markedDb), estimateWords(errorDb, 'dB')];
					return asLoss < 0 ? say`marked ${marked}: level off by ${off}` : say`marked ${marked}: off by ${off}`;
				}),
		],
	};
}

const readingOf = (options: PartOptions, name: string, meterDb: number): Estimate => ({
	value: options.quantity('level', name, '-20dB'),
	uncertainty: meterDb,
});

function leak(_: string, options: PartOptions, { say }: Language): Answer {
	const knownV = options.quantity('voltage', 'known', '100uV');
	if (!(knownV > 0)) throw new InputFault('--known: give a level above 0, such as 100uV');
	const meterDb = options.quantityOr('level', 'meter', usualMeterDb);
	const [known, off] = [readingOf(options, 'reads', meterDb), readingOf(options, 'off', meterDb)];
	const aboveDb = known.value - off.value;
	if (aboveDb < leastAboveLeakDb)
		throw new InputFault(
			`--reads is ${aboveDb.toFixed(0)} dB above --off, and the leak is in it too: take a known level that reads ${leastAboveLeakDb} dB above it or more`,
		);
	const found = leakage(knownV, known, off);
	return {
		json: found,
		lines: [
			row(say`leakage`, say`as much as ${voltageWords(found.leakV.value)} at the lead`),
			row(
				say`useful from`,
				say`${voltageWords(found.leastUsefulV)} on: below, leakage changes the signal by more than 1 dB`,
			),
		],
	};
}

function depth(_: string, options: PartOptions, language: Language): Answer {
	if (options.has('sideband')) {
		const belowDb = Math.abs(options.quantity('level', 'sideband', '16.5dB'));
		return depthAnswer(depthFromSidebands({ value: belowDb, uncertainty: null }).value, language);
	}
	const crestV = options.quantity('voltage', 'crest', '5.9V');
	const troughV = options.quantity('voltage', 'trough', '1.2V');
	if (!(crestV > 0 && troughV >= 0 && troughV <= crestV))
		throw new InputFault('--trough: give a voltage from 0 up to the crest');
	const typed = (value: number) => ({ value, uncertainty: null });
	return depthAnswer(depthFromEnvelope(typed(crestV), typed(troughV)).value, language);
}

function depthAnswer(share: number, { say }: Language): Answer {
	const percent = (100 * share).toFixed(1);
	return {
		json: { depth: share },
		lines: [
			share > 1 ? say`modulated ${percent} %: overmodulated, or not a pair of sidebands` : say`modulated ${percent} %`,
		],
	};
}

function drift(path: string, options: PartOptions, { say, figure, frequency }: Language): Answer {
	const [times, heard] = columnsIn(path, [
		{ word: 'time', kinds: ['time'], example: 'time min' },
		{ word: 'frequency', kinds: ['frequency'], example: 'frequency kc' },
	]);
	const limitHz = options.quantityOr('frequency', 'limit', 100);
	const windowS = options.quantityOr('time', 'window', 600);
	const readings = (times?.values ?? [])
		.map((atS, k) => ({ atS, frequencyHz: heard?.values[k] as number }))
		.sort((one, other) => one.atS - other.atS);
	const found = warmUp(readings, limitHz, windowS);
	const minutes = (seconds: number): string => `${(seconds / 60).toFixed(0)} min`;
	return {
		json: found,
		lines: [
			...found.drifts.map(
				({ atS, driftHzPerS }) =>
					say`after ${minutes(atS).padStart(7)}  ${figure(`${decimalWords(driftHzPerS.value * windowS, 0).padStart(6)} c`)} in ${minutes(windowS)}`,
			),
			found.readyAtS === null
				? say`not ready: it still drifts by ${frequency(limitHz)} or more in ${minutes(windowS)}, or the readings are too few`
				: say`ready after ${minutes(found.readyAtS)}`,
		],
	};
}

const questions: Readonly<Record<string, { readonly ask: Question; readonly wantsFile: boolean }>> = {
	beat: { ask: beat, wantsFile: true },
	dial: { ask: dial, wantsFile: true },
	steps: { ask: steps, wantsFile: true },
	leak: { ask: leak, wantsFile: false },
	depth: { ask: depth, wantsFile: false },
	drift: { ask: drift, wantsFile: true },
};

const text = { type: 'string' } as const;

export const generatorCommand = spokenCommand({
	name: 'generator',
	summary: 'what a signal generator is worth: dial, level steps, leakage, modulation, warm-up',
	usage: 'beat|dial|steps|leak|depth|drift [FILE] [options] [--json]',
	examples: [
		'npx peakwright generator beat whistle.wav --station 1000kc --side above',
		'npx peakwright generator beat whistle.wav --station 1000kc --side below --harmonic 2 --tone 800c',
		'npx peakwright generator dial checks.csv --at 455kc --setting 0.5kc',
		'npx peakwright generator steps steps.csv --meter 0.1dB',
		'npx peakwright generator leak --known 100uV --reads=-20dB --off=-48dB',
		'npx peakwright generator depth --crest 5.9V --trough 1.2V',
		'npx peakwright generator depth --sideband 16.5dB',
		'npx peakwright generator drift warm-up.csv --limit 100c --window 10min',
	],
	options: {
		station: text,
		harmonic: text,
		side: text,
		tone: text,
		at: text,
		setting: text,
		meter: text,
		known: text,
		reads: text,
		off: text,
		crest: text,
		trough: text,
		sideband: text,
		limit: text,
		window: text,
		json: { type: 'boolean' },
	},
	run({ values, positionals }, output, language) {
		const [name, path, ...more] = positionals;
		const question = name !== undefined && Object.hasOwn(questions, name) ? questions[name] : undefined;
		if (!question || more.length > 0)
			throw new InputFault(
				`give one of ${Object.keys(questions).join(', ')}: npx peakwright generator --help shows each`,
			);
		if (question.wantsFile !== (path !== undefined))
			throw new InputFault(
				question.wantsFile
					? `give the file: npx peakwright generator ${name} FILE`
					: `cannot use "${path}": generator ${name} takes options only`,
			);
		const { json, lines } = question.ask(path ?? '', new PartOptions(values), language);
		if (values.json === true) output.line(JSON.stringify(json));
		else for (const line of lines) output.line(line);
	},
});
