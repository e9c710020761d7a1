import { readCurve } from '#core/estimate/curve-reading.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { Settled, SweepHand } from './sweep-hand.ts';

/** The most that the level rises between two readings, decibels. */
const riseDb = 10;
/** A rise that is refused is tried smaller, down to this (chosen). */
const leastRiseDb = 1;
/** Input at which a search for more is given up, volts behind the dummy antenna: as the standard tests have it. */
const mostInputV = 2;
/** Inputs are read until the output is as near as this, or as near as it can be read (chosen). */
const nearDb = 0.05;
const mostGuesses = 8;

const volts = (inputDb: number): number => 10 ** (inputDb / 20);
const decibels = (inputV: number): number => 20 * Math.log10(inputV);
/** What is not heard is far below everything. */
const heardDb = ({ levelDb }: Settled): number => levelDb ?? -200;

interface Step {
	readonly inputDb: number;
	readonly at: Settled;
}

async function stepAt(hand: SweepHand, frequencyHz: number): Promise<Step> {
	return { inputDb: decibels(hand.levelV), at: await hand.levelAt(frequencyHz, 'level') };
}

/** Raises the level by one step, smaller near the generator's end; `false` when there is no more. */
async function rise(hand: SweepHand): Promise<boolean> {
	const fromV = hand.levelV;
	for (let byDb = riseDb; byDb >= leastRiseDb; byDb /= 2) {
		const levelV = fromV * volts(byDb);
		if (levelV <= mostInputV && (await hand.reachesLevel(levelV))) return true;
	}
	return false;
}

/**
 * Raises the level to an input in acts of 10 dB at most, each followed by a reading; `false` when the generator does not reach it.
 * @param enoughDb reading at which it stops before
 */
export async function climb(
	hand: SweepHand,
	frequencyHz: number,
	inputV: number,
	enoughDb = Number.POSITIVE_INFINITY,
): Promise<boolean> {
	if (inputV <= hand.levelV) return hand.reachesLevel(inputV);
	for (;;) {
		if (heardDb(await hand.levelAt(frequencyHz, 'level')) >= enoughDb) return true;
		const leftDb = decibels(inputV / hand.levelV);
		if (leftDb <= riseDb) return hand.reachesLevel(inputV);
		if (!(await hand.reachesLevel(hand.levelV * volts(riseDb)))) return false;
	}
}

/** Two inputs, the output wanted between theirs; `null` when the generator's ends do not reach it. */
async function bracket(hand: SweepHand, frequencyHz: number, wantedDb: number): Promise<[Step, Step] | null> {
	let step = await stepAt(hand, frequencyHz);
	const isBelow = heardDb(step.at) < wantedDb;
	for (;;) {
		const reached = isBelow ? await rise(hand) : await hand.reachesLevel(hand.levelV * volts(-riseDb));
		if (!reached) return null;
		const next = await stepAt(hand, frequencyHz);
		if (heardDb(next.at) < wantedDb !== isBelow) return isBelow ? [step, next] : [next, step];
		step = next;
	}
}

/** Decibels of output for one of input between two steps; where the lower is not heard, one for one. */
function slopeOf([low, high]: readonly [Step, Step]): number {
	if (low.at.levelDb === null || high.inputDb - low.inputDb < 1e-6) return 1;
	return Math.max((heardDb(high.at) - heardDb(low.at)) / (high.inputDb - low.inputDb), 0.2);
}

/**
 * The input for an output, found by bracketing: steps of 10 dB until the output lies between two of them, then the straight line between the two.
 * Leaves the generator at the last input read.
 * @param wantedDb output, decibels of one volt
 * @returns open-circuit volts rms; `null` where the generator's ends, or 2 V, do not reach it
 */
export async function inputForOutput(hand: SweepHand, frequencyHz: number, wantedDb: number): Promise<Estimate | null> {
	const found = await bracket(hand, frequencyHz, wantedDb);
	if (!found) return null;
	let [low, high] = found;
	for (let guess = 0; ; guess++) {
		const nearest = wantedDb - heardDb(low.at) < heardDb(high.at) - wantedDb ? low : high;
		const slope = slopeOf([low, high]);
		const offDb = wantedDb - heardDb(nearest.at);
		const uncertaintyDb = (nearest.at.uncertaintyDb ?? nearDb) / slope;
		const inputDb = Math.min(Math.max(nearest.inputDb + offDb / slope, low.inputDb), high.inputDb);
		if (Math.abs(offDb) <= Math.max(nearDb, nearest.at.uncertaintyDb ?? 0) || guess === mostGuesses)
			return { value: volts(inputDb), uncertainty: volts(inputDb) * (volts(uncertaintyDb) - 1) };
		// Where the lower end is not heard the line means nothing: halve.
		const nextDb = low.at.levelDb === null ? (low.inputDb + high.inputDb) / 2 : inputDb;
		if (!(await hand.reachesLevel(volts(nextDb)))) return null;
		const next = await stepAt(hand, frequencyHz);
		if (heardDb(next.at) < wantedDb) low = next;
		else high = next;
	}
}

/** Places of the first look, and of the closer one (chosen: half, and a tenth, of what IF strips pass). */
const coarseStepHz = 5e3;
const fineStepHz = 1e3;
const fineSteps = 6;
/** A place that reads so far below the wanted output is not taken for the signal yet. */
const heardBelowDb = 12;
const mostLooks = 6;
/** This much is looked over first (chosen: no humps of one IF strip lie farther apart). */
const firstReachHz = 35e3;
/** Of a meter that says nothing of itself. */
const meterDb = 0.05;

async function look(hand: SweepHand, aboutHz: number, stepHz: number, steps: number): Promise<readonly Settled[]> {
	const read: Settled[] = [];
	for (let k = -steps; k <= steps; k++) read.push(await hand.levelAt(aboutHz + k * stepHz, 'level'));
	return read;
}

const loudest = (read: readonly Settled[]): Settled =>
	read.reduce((best, one) => (heardDb(one) > heardDb(best) ? one : best));

/** The loudest place, looked for near by and then as far as the reach goes; `null` where none is heard well enough. */
async function looked(hand: SweepHand, nearHz: number, reachHz: number, enoughDb: number): Promise<number | null> {
	for (const withinHz of new Set([Math.min(firstReachHz, reachHz), reachHz])) {
		const steps = Math.ceil(withinHz / coarseStepHz);
		const top = loudest(await look(hand, nearHz, coarseStepHz, steps));
		const isInside = Math.abs(top.frequencyHz - nearHz) < (steps - 0.5) * coarseStepHz;
		if (heardDb(top) >= enoughDb && (isInside || withinHz === reachHz)) return top.frequencyHz;
	}
	return null;
}

/** A curve is read from no fewer places: by trial on single circuits of 0.2 to 3 kc half width, five to seven put the peak up to five times what they say beside it, eight and more do not. */
const fewestHeard = 8;

/** The peak by the curve through what was read; where too little was heard for one, the loudest place, the peak anywhere between its neighbours. */
function peakOf(read: readonly Settled[], top: Settled): Estimate {
	const points = read.flatMap((point) => (point.levelDb === null ? [] : [{ ...point, levelDb: point.levelDb }]));
	if (new Set(points.map(({ frequencyHz }) => frequencyHz)).size >= fewestHeard)
		return readCurve(points, meterDb, top.frequencyHz).peakHz;
	const away = read.map(({ frequencyHz }) => frequencyHz - top.frequencyHz).filter((awayHz) => awayHz !== 0);
	const [below, above] = [away.filter((hz) => hz < 0).map((hz) => -hz), away.filter((hz) => hz > 0)];
	const besideHz = Math.max(Math.min(...below), Math.min(...above));
	return { value: top.frequencyHz, uncertainty: besideHz / Math.sqrt(3) };
}

/**
 * Where the generator gives most output near a frequency, and how well that is known; `null` when nothing is heard there.
 * Looks wide, brings the input down until the output is the wanted one, and looks closer.
 */
export async function tuneForMost(
	hand: SweepHand,
	nearHz: number,
	reachHz: number,
	wantedDb: number,
): Promise<Estimate | null> {
	let aboutHz = await looked(hand, nearHz, reachHz, wantedDb - heardBelowDb);
	while (aboutHz === null) {
		if (!(await rise(hand))) return null;
		aboutHz = await looked(hand, nearHz, reachHz, wantedDb - heardBelowDb);
	}
	for (let count = 0; count < mostLooks; count++) {
		if ((await inputForOutput(hand, aboutHz, wantedDb)) === null) return null;
		const read = await look(hand, aboutHz, fineStepHz, fineSteps);
		const top = loudest(read);
		const isInside = Math.abs(top.frequencyHz - aboutHz) < (fineSteps - 1) * fineStepHz;
		aboutHz = top.frequencyHz;
		if (!isInside) continue;
		return peakOf(read, top);
	}
	return null;
}
