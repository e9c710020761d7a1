import { setTimeout as wait } from 'node:timers/promises';
import { sweepIf } from '../../src/bench/if-sweep.ts';
import { servePanel } from '../../src/cli/panel-server.ts';
import { avcLaw, inputOf } from '../../src/core/estimate/avc-law.ts';
import { frequencyFromBeat } from '../../src/core/estimate/generator-dial.ts';
import { createRandom } from '../../src/core/numeric/random.ts';
import { tuningAtMark, valuesAt } from '../../src/core/receiver/bench-set.ts';
import { tm517 } from '../../src/core/receiver/designs/tm-517.ts';
import { SteadyState } from '../../src/core/receiver/operating-point.ts';
import { SetStream } from '../../src/core/receiver/set-stream.ts';
import { standardTone } from '../../src/core/receiver/signal.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { measureTone } from '../../src/core/signal/tone.ts';
import { ScpiClient } from '../../src/instruments/scpi/scpi-client.ts';
import { ScpiGenerator } from '../../src/instruments/scpi/scpi-generator.ts';
import { ScpiMeter } from '../../src/instruments/scpi/scpi-meter.ts';
import { ScpiSession } from '../../src/instruments/scpi/scpi-session.ts';
import { virtualInstruments } from '../../src/instruments/virtual/virtual-instruments.ts';
import { VirtualSet } from '../../src/instruments/virtual/virtual-set.ts';
import { type GeneratorVerbs, genericInstrument, type MeterVerbs } from '../../src/record/instrument-description.ts';
import { scriptedInstrument } from '../../test/scripted-instrument.ts';
import { SimulatedClock, simulatedInstruments } from '../../test/simulated-instruments.ts';
import { atLeast, atMost, type Figure, worst } from './figure.ts';

const processorMs = (since: NodeJS.CpuUsage): number => {
	const { user, system } = process.cpuUsage(since);
	return (user + system) / 1e3;
};

const queries = 5000;

async function queryRate(): Promise<{ perSecond: number; shareAt100: number }> {
	const served = await servePanel(virtualInstruments(new VirtualSet(tamperedSet(tm517, 1), 1, null), Date.now), 0);
	if (!served.ok) throw new Error(served.words);
	const client = new ScpiClient(
		{ kind: 'network', host: '127.0.0.1', port: served.value.port },
		{ terminator: 'LF', replyWithinMs: 5000 },
	);
	await client.open();
	for (let k = 0; k < 500; k++) await client.ask('*OPC?');
	const began = performance.now();
	const used = process.cpuUsage();
	for (let k = 0; k < queries; k++) {
		const answer = await client.ask('FREQ?');
		if (answer.kind !== 'line') throw new Error(JSON.stringify(answer));
	}
	const ms = performance.now() - began;
	const cpuMs = processorMs(used);
	client.close();
	await served.value.stop();
	return { perSecond: (queries / ms) * 1e3, shareAt100: ((cpuMs / queries) * 100) / 1e3 };
}

const cuts = 1000;

/** Readings taken while the instrument cuts the connection before, amid or after its answers. */
async function disconnects(): Promise<{
	made: number;
	lost: number;
	wrong: number;
	rejections: number;
	isOff: boolean;
	s: number;
}> {
	const random = createRandom(5);
	let made = 0;
	let count = 0;
	let isOn = false;
	const answers: Readonly<Record<string, () => string>> = {
		'*IDN?': () => 'MAKER,MODEL,0,1',
		'*OPC?': () => '1',
		'SYST:ERR?': () => '0,"No error"',
		'MEAS:VOLT:AC?': () => `${++count}.0E0`,
	};
	const instrument = await scriptedInstrument((line, socket) => {
		if (line === 'OUTP:STAT ON') isOn = true;
		if (line === 'OUTP:STAT OFF') isOn = false;
		const answer = answers[line]?.();
		if (answer === undefined) return;
		if (made < cuts && random.uniform() < 0.12) {
			made++;
			const keep = Math.floor(random.uniform() * (answer.length + 2));
			socket.write(`${answer}\n`.slice(0, keep));
			setTimeout(() => socket.destroy(), random.uniform() < 0.5 ? 0 : 2);
		} else socket.write(`${answer}\n`);
	});
	let rejections = 0;
	const rejected = (): void => {
		rejections++;
	};
	process.on('unhandledRejection', rejected);
	const session = new ScpiSession({ kind: 'network', host: '127.0.0.1', port: instrument.port }, genericInstrument);
	const generator = new ScpiGenerator(session, genericInstrument.generator as GeneratorVerbs, 0);
	const meter = new ScpiMeter(session, genericInstrument.meter as MeterVerbs, Date.now);
	const began = performance.now();
	let lost = 0;
	let wrong = 0;
	let last = 0;
	await generator.switchOn();
	while (made < cuts) {
		const reading = await meter.read();
		if (reading.kind !== 'level' || reading.levelDb === null) lost++;
		else {
			const value = Number(reading.words);
			if (!(value > last)) wrong++;
			last = value;
		}
	}
	const off = await generator.switchOff();
	const s = (performance.now() - began) / 1e3;
	session.close();
	await instrument.stop();
	await wait(50);
	process.off('unhandledRejection', rejected);
	return { made, lost, wrong, rejections, isOff: off.kind === 'done' && !isOn, s };
}

const beats = 24;

/** Largest error of a frequency found by its beat with a station on 1 Mc, in sound of tampered sets. */
function beatErrorHz(): number {
	const random = createRandom(9);
	const rateHz = 48e3;
	let worstHz = 0;
	for (let seed = 1; seed <= beats; seed++) {
		const set = tamperedSet(tm517, seed);
		const values = valuesAt(set, tuningAtMark(set, 1e6), 0.2);
		const side = seed % 2 === 0 ? 'above' : 'below';
		const beatHz = 250 + 2000 * random.uniform();
		const generatorHz = 1e6 + (side === 'above' ? beatHz : -beatHz);
		const carrier = { toneHz: 400, into: 'antenna' } as const;
		const signals = [
			{ ...carrier, frequencyHz: 1e6, depth: 0.1, levelV: 5e-3 },
			{ ...carrier, frequencyHz: generatorHz, depth: 0, levelV: 3e-3 },
		];
		const stream = new SetStream(values, signals, rateHz, seed);
		stream.fill(new Float64Array(rateHz * 0.6));
		const samples = new Float64Array(rateHz);
		stream.fill(samples);
		const { toneHz } = measureTone(
			samples.map((volts) => volts / 4),
			rateHz,
			null,
		);
		const errorHz = toneHz ? frequencyFromBeat(1e6, 1, toneHz, side).value - generatorHz : Number.POSITIVE_INFINITY;
		worstHz = Math.max(worstHz, Math.abs(errorHz));
	}
	return worstHz;
}

const lawSets = 40;

function lawErrorsDb(): { worstDb: number; rmsDb: number; chiSquared: number } {
	let worstDb = 0;
	let squares = 0;
	let normed = 0;
	let count = 0;
	const scatterDb = 0.03 / Math.sqrt(10);
	for (let seed = 1; seed <= lawSets; seed++) {
		const random = createRandom(seed);
		const steady = new SteadyState(valuesAt(tamperedSet(tm517, seed), 0, 0.05));
		const readDb = (inputDb: number): number => {
			const levelV = 10 ** (inputDb / 20);
			const signal = { frequencyHz: 455e3, ...standardTone, into: 'converter grid', levelV } as const;
			return 20 * Math.log10(steady.operatingPoint(signal).toneV) + scatterDb * random.gaussian();
		};
		const steps = Array.from({ length: 17 }, (_, k) => -64 + 3 * k);
		const law = avcLaw(steps.map((inputDb) => ({ inputDb, outputDb: readDb(inputDb), uncertaintyDb: scatterDb })));
		for (let k = 0; k < 50; k++) {
			const inputDb = -61 + 40 * random.uniform();
			const back = law && inputOf(law, { value: readDb(inputDb), uncertainty: scatterDb });
			const errorDb = back ? back.value - inputDb : Number.POSITIVE_INFINITY;
			worstDb = Math.max(worstDb, Math.abs(errorDb));
			squares += errorDb ** 2;
			normed += (errorDb / (back?.uncertainty ?? Number.NaN)) ** 2;
			count++;
		}
	}
	return { worstDb, rmsDb: Math.sqrt(squares / count), chiSquared: normed / count };
}

const sweeps = 20;

/** Sweeps of tampered sets in simulated time: the longest, its processor time, and the largest error against the circuits at rest. */
async function sweepFigures(): Promise<{ longestS: number; mostCpuS: number; worstDb: number; done: number }> {
	let longestS = 0;
	let mostCpuS = 0;
	let worstDb = 0;
	let done = 0;
	for (let seed = 1; seed <= sweeps; seed++) {
		const clock = new SimulatedClock();
		const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
		const panel = virtualInstruments(set, clock.now);
		panel.line('HAND:LEAD GRID;VOL 10');
		const used = process.cpuUsage();
		const plan = {
			name: 'IF sweep',
			centreHz: 455e3,
			spanHz: 40e3,
			points: 61,
			...standardTone,
			levelV: 30e-3,
			level: 'below AVC',
		} as const;
		const end = await sweepIf(
			{
				...simulatedInstruments(panel, clock),
				waitMs: clock.wait,
				keep: async () => undefined,
				agrees: async () => true,
				turn: async () => 'on',
				progress: () => undefined,
			},
			plan,
		);
		longestS = Math.max(longestS, clock.ms / 1e3);
		mostCpuS = Math.max(mostCpuS, processorMs(used) / 1e3);
		if (end.kind !== 'swept') continue;
		done++;
		const steady = new SteadyState(set.values);
		for (const { frequencyHz, levelDb } of end.points) {
			const signal = { ...standardTone, frequencyHz, levelV: end.levelV, into: 'converter grid' } as const;
			const { toneV } = steady.operatingPoint(signal);
			// Below 0.1 V the meter's own noise stands before everything else.
			if (toneV > 0.1) worstDb = Math.max(worstDb, Math.abs(levelDb - 20 * Math.log10(toneV)));
		}
	}
	return { longestS, mostCpuS, worstDb, done };
}

export const figures: readonly Figure[] = [
	{
		name: 'IF sweep of 61 points on the virtual instruments',
		target: 'at most 45 s of simulated time, 3 s of processor time',
		by: 'count',
		how: `longest of ${sweeps} tampered sets (tm-517), with the search for top and level and the returns to the top; a message takes 20 ms, a reading 100 ms, AVC settles with 0.165 s; errors against the circuits at rest where the tone is above 0.1 V`,
		async measure() {
			const { longestS, mostCpuS, worstDb, done } = await sweepFigures();
			return {
				reached: `${longestS.toFixed(1)} s simulated, ${mostCpuS.toFixed(2)} s of processor; ${done} of ${sweeps} swept, worst error ${worstDb.toFixed(2)} dB`,
				used: worst(atMost(longestS, 45), atMost(mostCpuS, 3), atMost(sweeps - done, 0)),
			};
		},
	},
	{
		name: 'SCPI: questions over loopback',
		target: '100 a second with less than 1 % of one core',
		by: 'clock',
		how: `${queries} questions one after another; processor time of client and virtual instrument together, as a share at 100 a second`,
		async measure() {
			const { perSecond, shareAt100 } = await queryRate();
			return {
				reached: `${perSecond.toFixed(0)} a second; at 100 a second ${(100 * shareAt100).toFixed(2)} % of a core`,
				used: worst(atLeast(perSecond, 100), atMost(shareAt100, 0.01)),
			};
		},
	},
	{
		name: 'SCPI: disconnects at random moments',
		target: '1,000: no lost reading, output off, no hang, no unhandled rejection',
		by: 'count',
		how: 'a scripted instrument that cuts before, amid or after one answer in eight, seed 5; each reading carries its number',
		async measure() {
			const { made, lost, wrong, rejections, isOff, s } = await disconnects();
			return {
				reached: `${made} cut, ${lost} readings lost, ${wrong} out of order, ${rejections} unhandled, output ${isOff ? 'off' : 'on'}, ${s.toFixed(0)} s`,
				used: atMost(lost + wrong + rejections + (isOff ? 0 : 1), 0),
			};
		},
	},
	{
		name: "generator's frequency from its beat with a station on 1 Mc",
		target: 'within 20 c',
		by: 'count',
		how: `worst of ${beats} beats of 250 to 2,250 c in one second of simulated sound of tampered sets, the station modulated by 10 %`,
		async measure() {
			const worstHz = beatErrorHz();
			return { reached: `${worstHz.toPrecision(2)} c`, used: atMost(worstHz, 20) };
		},
	},
	{
		name: 'AVC law turned back over 40 dB',
		target: 'within 0.3 dB',
		by: 'count',
		how: `2,000 readings of ${lawSets} tampered sets (tm-517), steps of 3 dB, each reading a second of frames that scatter by 0.03 dB`,
		async measure() {
			const { worstDb, rmsDb, chiSquared } = lawErrorsDb();
			return {
				reached: `worst ${worstDb.toFixed(2)} dB, rms ${rmsDb.toFixed(3)} dB; chi squared a reading ${chiSquared.toFixed(2)}`,
				used: atMost(worstDb, 0.3),
			};
		},
	},
];
