import { setTimeout as wait } from 'node:timers/promises';
import { usualGear } from '../../src/advice/tests/gear.ts';
import { proofOf } from '../../src/advice/tests/proof.ts';
import { sweepIf } from '../../src/bench/if-sweep.ts';
import { sweepWithNudges } from '../../src/bench/nudge-run.ts';
import { readTests } from '../../src/bench/test-run.ts';
import { createRandom } from '../../src/core/numeric/random.ts';
import { standardTone } from '../../src/core/receiver/signal.ts';
import { openGear } from '../../src/instruments/scpi/driven-gear.ts';
import type { ScpiPanel } from '../../src/instruments/virtual/scpi-panel.ts';
import {
	type GeneratorVerbs,
	genericInstrument,
	type InstrumentDescription,
} from '../../src/record/instrument-description.ts';
import {
	answerOf,
	circuitsHz,
	drivenBench,
	facts,
	figuresOf,
	ifStep,
	marksHz,
	nudgePlan,
	standing,
} from '../../test/driven-bench.ts';
import { scriptedInstrument } from '../../test/scripted-instrument.ts';
import type { SimulatedClock } from '../../test/simulated-instruments.ts';
import { atMost, type Figure } from './figure.ts';

/** Time that a message takes on its wire, milliseconds: as the simulated instruments have it. */
const messageMs = 20;

/** The instruments as the simulated ones are: as fine a level, and a meter that says the same of itself. */
const asSimulated: InstrumentDescription = {
	...genericInstrument,
	generator: {
		...(genericInstrument.generator as GeneratorVerbs),
		'set frequency': { send: 'SOUR:FREQ:CW {}', unit: 'Hz', least: 1e3, most: 1e9 },
		'set level': { send: 'SOUR:POW:LEV:IMM:AMPL {}', unit: 'dBm at 50 ohms', least: -140, most: 10, digits: 4 },
	},
	meter: { 'read volts': { ask: 'MEAS:VOLT:AC?', unit: 'V', uncertaintyDb: 0.05, quantity: 'tone' } },
};

/** Serves a panel over loopback on a clock that only its own lines move. */
async function servedGear(panel: ScpiPanel, clock: SimulatedClock, cutShare: number, seed: number) {
	const random = createRandom(seed);
	let cuts = 0;
	const instrument = await scriptedInstrument((line, socket) => {
		const isAct = /^(SOUR:(FREQ|POW|AM:STAT)|OUTP)/.test(line);
		if (isAct) clock.ms += messageMs;
		const { reply, tookMs } = panel.line(line);
		clock.ms += tookMs + (line.startsWith('MEAS') ? messageMs : 0);
		if (random.uniform() < cutShare) {
			cuts++;
			if (reply !== null) socket.write(`${reply}\n`.slice(0, Math.floor(random.uniform() * (reply.length + 2))));
			setTimeout(() => socket.destroy(), random.uniform() < 0.5 ? 0 : 1);
		} else if (reply !== null) socket.write(`${reply}\n`);
	});
	const place = { place: `127.0.0.1:${instrument.port}`, description: asSimulated };
	const gear = await openGear(place, place, clock.now);
	if (!gear.ok) throw new Error(gear.words);
	return {
		gear: gear.value,
		cuts: () => cuts,
		stop: async () => {
			for (const session of gear.value.sessions) session.close();
			await instrument.stop();
		},
	};
}

/** The IF part of a guided alignment: curves with nudges, and each act of the advice turned as it is told. */
async function guided(
	seed: number,
	isServed: boolean,
): Promise<{ circuitsHz: readonly number[]; acts: number; s: number }> {
	const { clock, set, panel, bench, work } = await drivenBench(seed, 'GRID');
	const served = isServed ? await servedGear(panel, clock, 0, seed) : null;
	const end = await sweepWithNudges({ ...work, ...served?.gear }, bench, ifStep, nudgePlan);
	await served?.stop();
	if (end.kind !== 'curves') throw new Error(JSON.stringify(end));
	const answer = answerOf(bench.state.sweeps);
	let acts = 0;
	for (const { adjuster, direction, timesNudge } of answer.advice) {
		if (adjuster === undefined || !direction || !timesNudge) continue;
		set.turn(adjuster, ((direction === 'same' ? 1 : -1) * timesNudge) / 8);
		acts++;
	}
	return { circuitsHz: circuitsHz(set), acts, s: clock.ms / 1e3 };
}

const guidedSets = 12;

async function guidedFigure() {
	let worstHz = 0;
	let acts = 0;
	let longestS = 0;
	let offHz = 0;
	let count = 0;
	for (let seed = 1; seed <= guidedSets; seed++) {
		const [own, other] = [await guided(seed, true), await guided(seed, false)];
		own.circuitsHz.forEach((hz, k) => {
			worstHz = Math.max(worstHz, Math.abs(hz - (other.circuitsHz[k] as number)));
		});
		acts += own.acts;
		longestS = Math.max(longestS, own.s);
		if (own.acts > 0) {
			offHz += own.circuitsHz.reduce((sum, hz) => sum + Math.abs(hz - 455e3), 0) / own.circuitsHz.length;
			count++;
		}
	}
	return { worstHz, acts, longestS, offHz: offHz / Math.max(count, 1), count };
}

const wantedCuts = 1000;

/** IF sweeps through connections that are cut all the while. */
async function cutFigure() {
	let cuts = 0;
	let done = 0;
	let sweeps = 0;
	let missing = 0;
	let on = 0;
	let rejections = 0;
	const rejected = (): void => {
		rejections++;
	};
	process.on('unhandledRejection', rejected);
	const began = performance.now();
	for (let seed = 1; cuts < wantedCuts; seed++) {
		const { clock, panel, bench, work } = await drivenBench(seed, 'GRID');
		const served = await servedGear(panel, clock, 0.06, seed);
		const { generator, meter } = served.gear;
		let taken = 0;
		let kept = 0;
		const end = await sweepIf(
			{
				...work,
				generator,
				meter: {
					name: meter.name,
					read: async () => {
						const reading = await meter.read();
						if (reading.kind === 'level') taken++;
						return reading;
					},
				},
				keep: async (reading) => {
					await bench.keepSweptReading(reading);
					kept++;
				},
			},
			{
				name: 'IF sweep',
				centreHz: 455e3,
				spanHz: 40e3,
				points: 61,
				...standardTone,
				levelV: 30e-3,
				level: 'below AVC',
			},
		);
		sweeps++;
		if (end.kind === 'swept') done++;
		missing += taken - kept;
		if (panel.line('OUTP?').reply !== '0') on++;
		cuts += served.cuts();
		await served.stop();
	}
	await wait(50);
	process.off('unhandledRejection', rejected);
	return { cuts, done, sweeps, missing, on, rejections, s: (performance.now() - began) / 1e3 };
}

const testedSets = 10;

/** Sensitivity, image and width of tampered sets by the driven tests, against the circuits at rest. */
async function testsFigure() {
	let worstSensitivityDb = 0;
	let worstImageDb = 0;
	let longestS = 0;
	for (let seed = 1; seed <= testedSets; seed++) {
		const { clock, set, bench, work } = await drivenBench(seed, 'ANT');
		const gear = usualGear(facts, 'before');
		await bench.keepTestGear(gear);
		const end = await readTests(work, bench, facts, gear, ['sensitivity', 'rejection']);
		if (end.kind !== 'read') throw new Error(JSON.stringify(end));
		longestS = Math.max(longestS, clock.ms / 1e3);
		const figures = figuresOf(standing(set, seed));
		const { before } = proofOf(facts, bench.state.testGear, bench.state.testReadings);
		const findingOf = (id: string): number => before?.findings.find((one) => one.id === id)?.value?.value ?? Number.NaN;
		marksHz.forEach((markHz, k) => {
			const truthV = figures.sensitivityV[k];
			const imageDb = figures.imageDb[k];
			if (truthV) {
				const errorDb = Math.abs(20 * Math.log10(findingOf(`sensitivity ${markHz / 1e3} kc`) / truthV));
				worstSensitivityDb = Math.max(worstSensitivityDb, Number.isNaN(errorDb) ? Number.POSITIVE_INFINITY : errorDb);
			}
			if (truthV && imageDb !== undefined && imageDb !== null) {
				const errorDb = Math.abs(findingOf(`image ${markHz / 1e3} kc`) - imageDb);
				worstImageDb = Math.max(worstImageDb, Number.isNaN(errorDb) ? Number.POSITIVE_INFINITY : errorDb);
			}
		});
	}
	return { worstSensitivityDb, worstImageDb, longestS };
}

export const figures: readonly Figure[] = [
	{
		name: 'IF part of a guided alignment through SCPI against the same without',
		target: 'circuits within 50 c on the same noise',
		by: 'count',
		how: `${guidedSets} tampered sets (tm-517): curve, a nudge of each adjuster, each act of the advice turned as it is told; over loopback TCP and without a wire, same seeds; circuits from coil and condenser as the screws stand`,
		async measure() {
			const { worstHz, acts, longestS, offHz, count } = await guidedFigure();
			return {
				reached: `worst ${worstHz.toFixed(1)} c over ${acts} acts; ${count} of ${guidedSets} sets had acts, circuits then ${(offHz / 1e3).toFixed(2)} kc off on average; longest ${longestS.toFixed(0)} s simulated`,
				used: atMost(worstHz, 50),
			};
		},
	},
	{
		name: 'IF sweeps through connections cut at random',
		target: '1,000 cuts: every sweep done, no reading lost, output off, no unhandled rejection',
		by: 'count',
		how: 'an instrument that cuts before, amid or after its answers at 6 of 100 lines; 61 points, every reading through the journal',
		async measure() {
			const { cuts, done, sweeps, missing, on, rejections, s } = await cutFigure();
			return {
				reached: `${cuts} cut; ${done} of ${sweeps} sweeps done, ${missing} readings lost, output left on ${on} times, ${rejections} unhandled, ${s.toFixed(0)} s`,
				used: atMost(sweeps - done + missing + on + rejections, 0),
			};
		},
	},
	{
		name: 'sensitivity and image rejection read by instruments alone',
		target: 'none set',
		by: 'count',
		how: `three marks of ${testedSets} tampered sets (tm-517) in simulated time, AVC settling included, against the circuits at rest`,
		async measure() {
			const { worstSensitivityDb, worstImageDb, longestS } = await testsFigure();
			return {
				reached: `worst ${worstSensitivityDb.toFixed(2)} dB and ${worstImageDb.toFixed(2)} dB; longest ${longestS.toFixed(0)} s simulated`,
				used: null,
			};
		},
	},
];
