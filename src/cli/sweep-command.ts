import { randomUUID } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import { hookUpCaution } from '#advice/cautions.ts';
import { gateFor } from '#advice/gates.ts';
import { makeSheet } from '#advice/sheet.ts';
import { usualOptions } from '#advice/sheet-options.ts';
import { type AvcPlan, type AvcSteps, keepLaw, stepLevels } from '#bench/avc-run.ts';
import { Bench } from '#bench/bench.ts';
import { type SweepPlan, type SweptCurve, sweepIf } from '#bench/if-sweep.ts';
import { markedOutput } from '#bench/marked-output.ts';
import type { Left, SweepGround } from '#bench/sweep-hand.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { Generator } from '#instruments/instrument.ts';
import { type DrivenGear, type InstrumentPlace, openGear } from '#instruments/scpi/driven-gear.ts';
import { estimateWords } from '#record/estimate-words.ts';
import type { Language } from '#record/language.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import { voltageWords } from '#record/quantity-words.ts';
import type { SetFacts } from '#record/set-facts.ts';
import { type InstrumentDrawer, instrumentDrawer } from '#storage/instrument-drawer.ts';
import { sqliteJournal } from '#storage/sqlite-journal.ts';
import { type CommandInput, type CommandOutput, InputFault } from './command.ts';
import { gateAnswers } from './gate-questions.ts';
import { writeOutput } from './input.ts';
import { keptPlace, placeWith } from './instrument-place.ts';
import { PartOptions } from './part-options.ts';
import { factsFor } from './sheet-file.ts';
import { withStore } from './shelf-commands.ts';
import { spokenCommand } from './spoken-command.ts';
import { TerminalPerson } from './terminal-person.ts';

type Found = SweptCurve | AvcSteps;
type Work = (ground: SweepGround) => Promise<Found | Left>;

/** The instruments that are given, and of those that are not the ones that page and terminal keep. */
async function placesOf(
	input: CommandInput,
	options: PartOptions,
): Promise<readonly [InstrumentPlace, InstrumentPlace]> {
	const generatorFile = options.has('generator-file') ? options.words('generator-file', 'FILE.json') : undefined;
	const meterFile = options.has('meter-file') ? options.words('meter-file', 'FILE.json') : generatorFile;
	const given = options.has('generator') ? placeWith(options.words('generator', '192.168.1.20'), generatorFile) : null;
	const givenMeter = options.has('meter') ? placeWith(options.words('meter', '192.168.1.21'), meterFile) : null;
	if (given) return [given, givenMeter ?? placeWith(given.place, meterFile)];
	const kept = await withStore(input, (store) => instrumentDrawer(store).named());
	return [keptPlace('generator', kept.generator), givenMeter ?? keptPlace('meter', kept.meter)];
}

/** The instruments, and the generator as it is named where its output is marked. */
async function gearOf(
	input: CommandInput,
	options: PartOptions,
): Promise<DrivenGear & { readonly named: NamedInstrument }> {
	const [generator, meter] = await placesOf(input, options);
	const gear = await openGear(generator, meter, Date.now);
	if (!gear.ok) throw new InputFault(gear.words);
	const description = generator.description === null ? null : JSON.stringify(generator.description);
	return { ...gear.value, named: { place: generator.place, description } };
}

/** Tells of an output that a program left on when it was killed; the same generator is told to be off, another has to be seen off first. */
async function seeOffLeft(
	drawer: InstrumentDrawer,
	{ generator, named }: { readonly generator: Generator; readonly named: NamedInstrument },
	notice: (words: string) => void,
): Promise<void> {
	const left = await drawer.leftOn();
	if (!left) return;
	const told = `The program was ended while the generator at ${left.place} may have been on`;
	if (left.place !== named.place)
		throw new InputFault(
			`${told}: switch its output off, then start the program (npx peakwright start), which tells it too`,
		);
	notice(`${told}: it is told to be off. Look at it.`);
	const off = await generator.switchOff();
	if (off.kind !== 'done')
		throw new InputFault(`${told}, and it does not go off: switch it off by hand (${off.words})`);
	await drawer.seenOff();
}

/** Opens the gates of the hook-up and of power by the person's answers. */
async function passGates(
	bench: Bench,
	facts: SetFacts,
	person: TerminalPerson,
	output: CommandOutput,
	language: Language,
): Promise<void> {
	output.notice(hookUpCaution(facts, language).words);
	for (const moment of ['first hook-up', 'power-up'] as const) {
		const gate = gateFor(moment, facts, 'converter grid', language);
		const verdict = await bench.passGate(gate, await gateAnswers(gate, person.ask, output.notice));
		if (verdict.kind === 'closed')
			throw new InputFault(`not begun. ${verdict.missing.map(({ words }) => words).join(' ')}`);
	}
}

function table(found: Found): string {
	if (found.kind === 'stepped') {
		const rows = found.readings.map(
			({ inputDb, outputDb }) => `${(1e6 * 10 ** (inputDb / 20)).toPrecision(5)},${outputDb.toFixed(3)}`,
		);
		return `${['input uV,output dB', ...rows].join('\n')}\n`;
	}
	const rows = found.points.map(
		({ frequencyHz, levelDb, uncertaintyDb }) =>
			`${(frequencyHz / 1e3).toFixed(3)},${levelDb.toFixed(3)},${(uncertaintyDb ?? 0).toFixed(3)}`,
	);
	return `${['kHz,dB,uncertainty dB', ...rows].join('\n')}\n`;
}

function summary(found: Found, run: string, { say }: Language): string {
	if (found.kind === 'stepped')
		return say`${found.readings.length} steps; kept as run ${run}. Next: npx peakwright avc FILE.csv`;
	const { points, levelV, of6Db, driftDb } = found;
	const step =
		of6Db === null ? say`a step of 6 dB lost the signal` : say`a step of 6 dB reads ${of6Db.toFixed(1)} dB at the top`;
	return say`${points.length} points at ${voltageWords(levelV)}; ${step}; drift ${estimateWords(driftDb, 'dB')}; kept as run ${run}.`;
}

function told(end: Found | Left): Found {
	if (end.kind === 'swept' || end.kind === 'stepped') return end;
	if (end.kind === 'stopped') throw new InputFault('stopped; what was read is kept in the run');
	if (end.kind === 'no signal')
		throw new InputFault('no signal: look at the lead, the volume and --if, or begin with a higher --level');
	throw new InputFault(end.words);
}

function planOf(options: PartOptions): SweepPlan {
	const points = options.has('points') ? options.count('points', '61') : 61;
	if (!Number.isInteger(points) || points < 15 || points > 400)
		throw new InputFault('--points: give a whole number from 15 to 400, such as 61');
	return {
		name: 'IF sweep',
		centreHz: options.quantity('frequency', 'if', '455kc'),
		spanHz: options.quantityOr('frequency', 'span', 40e3),
		points,
		toneHz: standardTone.toneHz,
		depth: standardTone.depth,
		levelV: options.quantityOr('voltage', 'level', 3e-3),
		level: 'below AVC',
	};
}

const avcPlan = (options: PartOptions): AvcPlan => ({
	name: 'AVC curve',
	frequencyHz: options.quantity('frequency', 'if', '455kc'),
	leastV: options.quantityOr('voltage', 'level', 30e-6),
	mostV: options.quantityOr('voltage', 'most', 0.1),
	stepDb: 3,
});

/** The work that was asked for: a curve over frequency, or with --avc steps of level. */
function workOf(options: PartOptions): Work {
	if (!options.has('avc')) {
		const plan = planOf(options);
		return (ground) => sweepIf(ground, plan);
	}
	const plan = avcPlan(options);
	if (!(plan.leastV > 0 && plan.mostV >= 4 * plan.leastV))
		throw new InputFault('--most: give at least four times --level, such as --level 30uV --most 100mV');
	return (ground) => stepLevels(ground, plan);
}

/** The law stays with the set: the bench on the page takes it up for the same meter. */
async function keptWithSet(
	bench: Bench,
	facts: SetFacts,
	options: PartOptions,
	gear: DrivenGear,
	steps: AvcSteps,
): Promise<void> {
	const sheet = makeSheet(facts, usualOptions);
	const step = sheet.ok ? sheet.value.steps.find(({ id }) => id === 'if') : undefined;
	if (step) await keepLaw(bench, step, avcPlan(options), gear, steps, Date.now);
}

async function sweep(
	bench: Bench,
	gear: Pick<SweepGround, 'generator' | 'meter'>,
	work: Work,
	agrees: (words: string) => Promise<boolean>,
	notice: (words: string) => void,
): Promise<Found> {
	let isStopped = false;
	const stop = (): void => {
		if (!isStopped) notice('Stopping; the output is switched off first.');
		isStopped = true;
	};
	// However often it is told to stop: it does not end before the output is off.
	process.on('SIGINT', stop).on('SIGTERM', stop);
	const began = Date.now();
	try {
		const end = await work({
			...gear,
			agrees,
			waitMs: async (ms) => void (await wait(ms)),
			keep: (reading) => bench.keepSweptReading(reading),
			turn: async () => (isStopped ? 'stopped' : 'on'),
			progress: (done, of) => {
				if (done % 10 !== 0) return;
				const leftS = ((Date.now() - began) / done / 1e3) * (of - done);
				notice(`${done} of ${of}, about ${leftS.toFixed(0)} s to go`);
			},
		});
		return told(end);
	} finally {
		process.off('SIGINT', stop).off('SIGTERM', stop);
	}
}

const text = { type: 'string' } as const;

export const sweepCommand = spokenCommand({
	name: 'sweep',
	summary: 'sweeps the IF curve of a set, or steps out its AVC curve, by itself with instruments that speak SCPI',
	usage:
		'SET.json --if 455kc [--generator PLACE] [--meter PLACE] [--generator-file F.json] [--meter-file F.json] [--span 40kc] [--points 61] [--level 3mV] [--avc [--most 100mV]] [--out CURVE.csv] [--data FOLDER] [--json]',
	examples: [
		'npx peakwright sweep my-set.json --if 455kc --generator 192.168.1.20 --meter 192.168.1.21 --out curve.csv',
		'npx peakwright sweep examples/thistlemoor-tm-517.json --if 455kc --generator 127.0.0.1 --out curve.csv',
		'npx peakwright response curve.csv --if 455kc',
		'npx peakwright sweep my-set.json --if 455kc --generator 192.168.1.20 --avc --out steps.csv',
	],
	options: {
		if: text,
		generator: text,
		meter: text,
		'generator-file': text,
		'meter-file': text,
		span: text,
		points: text,
		level: text,
		avc: { type: 'boolean' },
		most: text,
		out: text,
		data: text,
		json: { type: 'boolean' },
	},
	async run(input, output, language) {
		const [path, ...more] = input.positionals;
		if (path === undefined || more.length > 0) throw new InputFault('give one set card: npx peakwright sweep SET.json');
		const options = new PartOptions(input.values);
		const facts = factsFor(path);
		const work = workOf(options);
		const gear = await gearOf(input, options);
		try {
			const person = gear.isVirtual ? null : new TerminalPerson(process.stdin, process.stderr);
			const run = randomUUID();
			const curve = await withStore(input, async (store) => {
				const drawer = instrumentDrawer(store);
				await seeOffLeft(drawer, gear, output.notice);
				const marked = markedOutput(gear.generator, {
					markOn: () => drawer.markOn(gear.named),
					seenOff: () => drawer.seenOff(),
				});
				const ground = { run, journal: sqliteJournal(store), nowMs: Date.now, newId: randomUUID };
				const names = { meter: gear.meter.name, generator: gear.generator.name };
				const bench = await Bench.begin(ground, facts.card, {}, names);
				try {
					if (person) await passGates(bench, facts, person, output, language);
					else await gear.sessions[0]?.tell(['HAND:LEAD GRID']);
					const agrees = async (words: string): Promise<boolean> =>
						person === null ||
						(await person.ask(`${language.term(words, Object.values(names))} (yes or no) `)).trim().toLowerCase() ===
							'yes';
					const swept = await sweep(bench, { ...gear, generator: marked }, work, agrees, output.notice);
					if (swept.kind === 'swept') {
						const { sweeps } = await bench.beginSweep('base', null);
						const begun = sweeps.at(-1);
						if (begun) await bench.keepSweepFile(begun.id, gear.meter.name, swept.points);
					}
					if (swept.kind === 'stepped') await keptWithSet(bench, facts, options, gear, swept);
					await bench.end('done');
					return swept;
				} catch (error) {
					await bench.end('left');
					throw error;
				}
			});
			if (options.has('out')) writeOutput(options.words('out', 'curve.csv'), table(curve));
			if (input.values.json === true) {
				output.line(JSON.stringify({ run, ...curve }));
				return;
			}
			if (!options.has('out')) output.line(table(curve).trimEnd());
			output.notice(summary(curve, run, language));
		} finally {
			for (const session of gear.sessions) session.close();
		}
	},
});
