import { adjusterVerdicts } from '../../src/core/estimate/adjuster-verdict.ts';
import type { Aim } from '../../src/core/estimate/aim.ts';
import { isRefused } from '../../src/core/estimate/fit-gate.ts';
import { fitNudges } from '../../src/core/estimate/nudge-fit.ts';
import { fitPoles } from '../../src/core/estimate/pole-fit.ts';
import { levelFunction, resonanceModel } from '../../src/core/estimate/response-model.ts';
import { covarianceOf } from '../../src/core/numeric/least-squares.ts';
import { createRandom } from '../../src/core/numeric/random.ts';
import { designs } from '../../src/core/receiver/designs/designs.ts';
import { standardTone } from '../../src/core/receiver/signal.ts';
import { tamperedSet } from '../../src/core/receiver/truth.ts';
import { heldGeneratorLevel } from '../../src/instruments/virtual/held-output.ts';
import { VirtualSet } from '../../src/instruments/virtual/virtual-set.ts';
import { guidedRound } from '../../src/rehearsal/guided-round.ts';
import { type HandStrip, steadyHand } from '../../test/guided-hand.ts';
import { loadedPeaking, ModelStrip, plainPeaking } from '../../test/model-strip.ts';
import {
	asProposed,
	evenlySpaced,
	ifHz,
	mostFeedback,
	nudgedStrip,
	randomStrip,
	readings,
	trueLevelDb,
} from '../../test/random-strip.ts';
import { atLeast, atMost, type Figure, worst } from './figure.ts';

const quantile = (values: readonly number[], share: number): number =>
	[...values].sort((one, other) => one - other)[Math.min(values.length - 1, Math.floor(share * values.length))] ??
	Number.NaN;
const median = (values: readonly number[]): number => quantile(values, 0.5);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const hertz = (value: number): string => `${value.toFixed(0)} c`;
/** Time on a processor so far: what a busy machine makes it wait is not counted. */
const cpuMs = (): number => {
	const { user, system } = process.cpuUsage();
	return (user + system) / 1e3;
};
const sweepHz = evenlySpaced(61, 30e3);

/** Tunings of resonances, ascending. */
const tunings = (parameters: ArrayLike<number>): number[] =>
	[0, 1, 2, 3].map((place) => parameters[place] as number).sort((one, other) => one - other);

/** Least possible variances of the tunings, Cramer and Rao: readings' true scatter, the gain unknown. */
function boundsHz(
	parameters: Float64Array,
	levelDb: (frequencyHz: number) => number,
	meterDb: number,
	floorDb: number,
): number[] {
	const level = levelFunction(resonanceModel(4), 400 / ifHz);
	const out = new Float64Array(9);
	const normal = new Float64Array(81);
	for (const frequencyHz of sweepHz) {
		level(parameters, frequencyHz / ifHz, out);
		const noiseDb = (20 / Math.LN10) * Math.SQRT1_2 * 10 ** ((floorDb - levelDb(frequencyHz)) / 20);
		const sigma = Math.hypot(meterDb, noiseDb);
		const slopes = [...out.subarray(1), 1];
		for (let row = 0; row < 9; row++)
			for (let column = 0; column < 9; column++)
				normal[row * 9 + column] =
					(normal[row * 9 + column] as number) + ((slopes[row] as number) * (slopes[column] as number)) / sigma ** 2;
	}
	const covariance = covarianceOf(normal);
	return [0, 1, 2, 3]
		.map((place) => ({ tuning: parameters[place] as number, hz: ifHz * Math.sqrt(covariance[place * 10] as number) }))
		.sort((one, other) => one.tuning - other.tuning)
		.map(({ hz }) => hz);
}

function oneSweep(count: number) {
	const errorsHz: number[] = [];
	const squares: number[] = [];
	const timesMs: number[] = [];
	let global = 0;
	for (let seed = 0; seed < count; seed++) {
		const random = createRandom(40_000 + seed);
		const level = trueLevelDb(randomStrip(random));
		const topDb = Math.max(...sweepHz.map(level));
		const conditions = { ifHz, toneHz: 400, meterDb: 0.1, generatorHz: 0 };
		const clean = sweepHz.map((frequencyHz) => ({ frequencyHz, levelDb: level(frequencyHz), uncertaintyDb: null }));
		const truth = fitPoles(clean, { ...conditions, meterDb: 0.001 });
		const points = readings(random, level, sweepHz, 0.1, topDb - 50);
		const from = cpuMs();
		const fit = fitPoles(points, conditions);
		timesMs.push(cpuMs() - from);
		if (!isRefused(fit.chiSquaredPerDegree, fit.degrees)) global++;
		const bounds = boundsHz(truth.parameters, level, 0.1, topDb - 50);
		const found = tunings(fit.parameters);
		for (const [place, tuning] of tunings(truth.parameters).entries()) {
			const errorHz = ((found[place] as number) - tuning) * ifHz;
			errorsHz.push(Math.abs(errorHz));
			squares.push((errorHz / (bounds[place] as number)) ** 2);
		}
	}
	return { errorsHz, squares, timesMs, global };
}

interface NudgeRun {
	readonly errorsHz: readonly number[];
	readonly timesMs: readonly number[];
	readonly signsWrong: number;
	readonly flagged: number;
	readonly wrongUnflagged: number;
}

function nudgeRuns(count: number, firstSeed: number, meterDb: number, feedback: number): NudgeRun {
	const errorsHz: number[] = [];
	const timesMs: number[] = [];
	let signsWrong = 0;
	let flagged = 0;
	let wrongUnflagged = 0;
	const conditions = { ifHz, toneHz: 400, meterDb, generatorHz: 0 };
	for (let seed = firstSeed; seed < firstSeed + count; seed++) {
		const drawn = nudgedStrip(seed, [0, 1, 2, 3], asProposed, meterDb, feedback);
		const from = cpuMs();
		const strip = fitNudges(fitPoles(drawn.base, conditions), drawn.base, drawn.nudges, conditions);
		timesMs.push(cpuMs() - from);
		const verdicts = adjusterVerdicts(strip, drawn.nudges, ifHz);
		const own = verdicts.map(({ frequencyHz }, place) => Math.abs(frequencyHz.value - (drawn.endsHz[place] as number)));
		errorsHz.push(...own);
		signsWrong += verdicts.filter(
			({ nudgeHz }, place) => Math.sign(nudgeHz ?? 0) !== Math.sign(drawn.turnsHz[place] as number),
		).length;
		const isFlagged =
			strip.others.length > 0 ||
			verdicts.some(({ isVague }) => isVague) ||
			isRefused(strip.chiSquaredPerDegree, strip.degrees);
		if (isFlagged) flagged++;
		else if (Math.max(...own) > 2000) wrongUnflagged++;
	}
	return { errorsHz, timesMs, signsWrong, flagged, wrongUnflagged };
}

function nudgeFigure(
	name: string,
	target: readonly [number, number],
	count: number,
	firstSeed: number,
	meterDb: number,
	feedback: number,
): Figure {
	return {
		name,
		target: `median ${hertz(target[0])}, 90 % ${hertz(target[1])} or less, every sign right, none wrong by 2 kc unflagged; a fit in 1 s`,
		by: 'count',
		how: `${count} random strips, seeds from ${firstSeed}; 31 points and 4 x 9 after nudges; noise power 50 dB under the top`,
		async measure() {
			const { errorsHz, signsWrong, flagged, wrongUnflagged, timesMs } = nudgeRuns(count, firstSeed, meterDb, feedback);
			const [half, most] = [median(errorsHz), quantile(errorsHz, 0.9)];
			return {
				reached: `${hertz(half)}, ${hertz(most)}; ${signsWrong} signs wrong, ${flagged} flagged or refused, ${wrongUnflagged} wrong and unflagged; ${median(timesMs).toFixed(0)} ms`,
				used: worst(
					atMost(half, target[0]),
					atMost(most, target[1]),
					atMost(signsWrong + wrongUnflagged, 0),
					atMost(median(timesMs), 1000),
				),
			};
		},
	};
}

const skill = { readingDb: 0.2, settingDb: 0.3 };

/** End states of so many random strips worked by one method. */
function worked(count: number, work: (strip: ModelStrip, seed: number) => void) {
	const offHz: number[] = [];
	const asymmetryDb: number[] = [];
	for (let seed = 0; seed < count; seed++) {
		const random = createRandom(70_000 + seed);
		const strip = new ModelStrip(randomStrip(random, mostFeedback * random.uniform()));
		work(strip, seed);
		offHz.push(...strip.offHz);
		asymmetryDb.push(strip.asymmetryDb);
	}
	return {
		offHz,
		asymmetryDb,
		words: `${hertz(median(offHz))} / ${hertz(quantile(offHz, 0.9))} off, ${median(asymmetryDb).toFixed(1)} / ${quantile(asymmetryDb, 0.9).toFixed(1)} dB of asymmetry`,
	};
}
const guidedBy = (aim: Aim) => (strip: ModelStrip, seed: number) => {
	guidedRound(
		steadyHand(strip, createRandom(80_000 + seed), skill),
		{ ifHz, toneHz: 400, aim },
		skill.readingDb,
		1 / 8,
	);
};
const handCount = 120;
const handHow = `${handCount} random strips with feedback up to 0.003 pF, seeds from 70000; readings to 0.2 dB, settings to 0.3 dB; median / 90 %`;

function virtualStrip(set: VirtualSet): HandStrip {
	const { band } = set.design;
	return {
		adjusters: ['if2-secondary', 'if2-primary', 'if1-secondary', 'if1-primary'],
		curveDb(frequencyHz) {
			set.place({ frequencyHz, ...standardTone, into: 'converter grid' }, band.lowHz * 1.05);
			return -(heldGeneratorLevel(set, 0)?.levelDb?.value ?? 200);
		},
		turn: (adjuster, turns) => set.turn(adjuster, turns),
	};
}
const windingsOffHz = (set: VirtualSet): number[] =>
	set.values.windings.map(({ henry, farad }) => Math.abs(1 / (2 * Math.PI * Math.sqrt(henry * farad)) - ifHz));

export const figures: readonly Figure[] = [
	{
		name: 'one sweep of 61 points, 0.1 dB: resonances',
		target: '99 % fitted, median error 100 c, squared error 1.3 times the Cramer-Rao bound, 50 ms or less',
		by: 'count',
		how: '200 random strips, seeds from 40000; noise power 50 dB under the top; median processor time',
		async measure() {
			const { errorsHz, squares, timesMs, global } = oneSweep(200);
			const ratio = mean(squares);
			return {
				reached: `${global} of 200 fitted, ${hertz(median(errorsHz))}, ${ratio.toFixed(2)} times the bound, ${median(timesMs).toFixed(0)} ms`,
				used: worst(
					atLeast(global, 198),
					atMost(median(errorsHz), 100),
					atMost(ratio, 1.3),
					atMost(median(timesMs), 50),
				),
				ratio: `${ratio.toFixed(2)} times the bound of the squared error`,
			};
		},
	},
	nudgeFigure('nudge test, 0.1 dB', [75, 210], 250, 50_000, 0.1, 0),
	nudgeFigure('nudge test, 0.1 dB, feedback up to 0.003 pF', [90, 252], 250, 51_000, 0.1, 1),
	nudgeFigure('nudge test, 0.3 dB', [180, 450], 100, 52_000, 0.3, 0),
	{
		name: 'guided setting, aimed at every circuit on the IF',
		target: 'median circuit 260 c off or less in at most 8 settings',
		by: 'count',
		how: `${handHow}; 4 nudges, at most 8 settings`,
		async measure() {
			const { offHz, words } = worked(handCount, guidedBy({ kind: 'on IF' }));
			return { reached: words, used: atMost(median(offHz), 260) };
		},
	},
	{
		name: 'guided setting, aimed at a symmetrical curve',
		target: 'asymmetry 0.7 dB median, 1.6 dB in 90 %',
		by: 'count',
		how: `${handHow}; 4 nudges, at most 8 settings`,
		async measure() {
			const { asymmetryDb, words } = worked(handCount, guidedBy({ kind: 'symmetrical' }));
			return { reached: words, used: worst(atMost(median(asymmetryDb), 0.7), atMost(quantile(asymmetryDb, 0.9), 1.6)) };
		},
	},
	{
		name: 'plain peaking by the same hand',
		target: 'none set: the usual ritual',
		by: 'count',
		how: `${handHow}; two passes, 8 settings`,
		async measure() {
			const { words } = worked(handCount, (strip, seed) => plainPeaking(strip, skill, createRandom(81_000 + seed), 2));
			return { reached: words, used: null };
		},
	},
	{
		name: 'loaded peaking by the same hand',
		target: 'none set: the rival',
		by: 'count',
		how: `${handHow}; one pass, partner damped to Q 10, 4 settings`,
		async measure() {
			const { words } = worked(handCount, (strip, seed) => loadedPeaking(strip, skill, createRandom(82_000 + seed)));
			return { reached: words, used: null };
		},
	},
	{
		name: 'guided setting on the virtual set, every circuit on the IF',
		target: 'median circuit 260 c off or less in at most 8 settings',
		by: 'count',
		how: '16 sets tampered by up to 24 kc (tm-517, seeds 201 to 216); generator level kept for one reading, 0.2 dB; settings to 0.3 dB; 4 nudges, at most 8 settings; windings off by their own L and C',
		async measure() {
			const offHz: number[] = [];
			let unworked = 0;
			for (let seed = 201; seed <= 216; seed++) {
				const design = designs['tm-517'] as NonNullable<(typeof designs)[string]>;
				const set = new VirtualSet(tamperedSet(design, seed), seed, null);
				const strip = steadyHand(virtualStrip(set), createRandom(seed), skill);
				const plain = { ifHz, toneHz: 400, aim: { kind: 'on IF' } } as const;
				if (guidedRound(strip, plain, skill.readingDb, 1 / 8).acts.length === 0) unworked++;
				else offHz.push(...windingsOffHz(set));
			}
			return {
				reached: `${hertz(median(offHz))} / ${hertz(quantile(offHz, 0.9))} (median / 90 %); ${unworked} of 16 not advised`,
				used: worst(atMost(median(offHz), 260), atMost(unworked, 0)),
			};
		},
	},
];
