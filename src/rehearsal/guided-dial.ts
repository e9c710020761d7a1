import { dialAnswer } from '#advice/dial/dial-answer.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { DialGround } from '#core/estimate/dial-model.ts';
import type { DialPoint } from '#core/estimate/dial-solve.ts';
import { peak } from './hand.ts';
import type { SimulatedBench } from './simulated-bench.ts';
import { stepPlace } from './step-place.ts';

/** Marks that are looked at, spread over the scale. */
const marksLookedAt = 7;
/** The pointer is set anew for each reading of a mark: its error rules everything else. */
const readingsEach = 4;
/** The generator is swung about a mark by no more than this, hertz. */
const searchHz = 40e3;
const coarseHz = 4e3;
/** A tone that has fallen by so much has been passed, decibels. */
const passedDb = 3;
const fineHz = 3e3;
/** The middle of a peak that lies further from where it was sought is looked at once more, hertz. */
const offCentreHz = 1e3;
/** How well the middle of a peak is found so (tried on the simulated sets). */
const heardUncertaintyHz = 300;
/** Passes of looking and acting before the hand lets it be. */
const mostPasses = 2;
/** Acts that promise less than this share of their own uncertainty are not worth turning a screw. */
const worthSigmas = 0.5;

/** Steps of the sheet that hold the adjusters of one band. */
export interface DialSteps {
	readonly oscillator: SheetStep;
	readonly low: SheetStep;
	readonly antenna: SheetStep;
}

/** Hooks the generator up as a step has it, on another frequency. */
function tune(bench: SimulatedBench, step: SheetStep, frequencyHz: number): void {
	bench.hookUp({ ...stepPlace(step, bench.set.design).generator, frequencyHz });
}

function levelAt(bench: SimulatedBench, step: SheetStep, frequencyHz: number): number {
	tune(bench, step, frequencyHz);
	return bench.readDb();
}

/** Where the set answers best about a frequency: the generator is swung each way until the tone has clearly fallen. */
function swing(bench: SimulatedBench, step: SheetStep, nearHz: number): number {
	tune(bench, step, nearHz);
	bench.setLevel();
	let best = { atHz: nearHz, levelDb: bench.readDb() };
	for (const way of [1, -1]) {
		for (let offHz = coarseHz; offHz <= searchHz; offHz += coarseHz) {
			const atHz = nearHz + way * offHz;
			const levelDb = levelAt(bench, step, atHz);
			if (levelDb > best.levelDb) best = { atHz, levelDb };
			if (levelDb < best.levelDb - passedDb) break;
		}
	}
	return best.atHz;
}

/** The middle of a peak by the meter, from looks at it and to either side; once more where it was not looked at in its middle. */
function middle(bench: SimulatedBench, step: SheetStep, nearHz: number): number {
	let atHz = nearHz;
	for (let round = 0; round < 2; round++) {
		tune(bench, step, atHz);
		bench.setLevel();
		const looks = [-fineHz, 0, fineHz].map((offHz) => levelAt(bench, step, atHz + offHz));
		const [below, at, above] = looks as [number, number, number];
		const bend = 2 * at - below - above;
		const offHz = bend > 0 ? (fineHz * (above - below)) / (2 * bend) : 0;
		atHz += Math.min(Math.max(offHz, -fineHz), fineHz);
		if (Math.abs(offHz) < offCentreHz) break;
	}
	return atHz;
}

/** The generator frequency at which the set answers best with its pointer where it stands. */
function tuneIn(bench: SimulatedBench, step: SheetStep, nearHz: number): number {
	return middle(bench, step, swing(bench, step, nearHz));
}

/** One pass over the marks; each is sought from where the one before it came in. */
function readMarks(bench: SimulatedBench, ground: DialGround, step: SheetStep, pass: number): readonly DialPoint[] {
	const { lowHz, highHz } = ground.band;
	let offHz = 0;
	return Array.from(
		{ length: marksLookedAt },
		(_, k) => lowHz + ((highHz - lowHz) * (k + 0.5)) / marksLookedAt,
	).flatMap((dialHz) =>
		Array.from({ length: readingsEach }, (_, again) => {
			bench.pointAt(dialHz);
			const heardHz = (again === 0 ? tuneIn : middle)(bench, step, dialHz + offHz);
			offHz = heardHz - dialHz;
			return { dialHz, heardHz, heardUncertaintyHz, pass };
		}),
	);
}

/**
 * Puts the dial right by what is heard at its marks: the acts that the advice gives, then the antenna trimmer.
 * Nothing but the product's own advice is used.
 */
export function guideDial(bench: SimulatedBench, ground: DialGround, steps: DialSteps): void {
	const adjusterOf = { trimmer: steps.oscillator, padder: steps.low, slug: steps.low } as const;
	const points: DialPoint[] = [];
	for (let pass = 0; pass < mostPasses; pass++) {
		points.push(...readMarks(bench, ground, steps.oscillator, pass));
		const { plan } = dialAnswer(ground, points);
		const gainHz = plan.worstNowHz.value - plan.predictedWorstHz.value;
		if (gainHz < (plan.predictedWorstHz.uncertainty ?? 0) * worthSigmas) break;
		for (const act of plan.acts) {
			if (act.adjuster === 'pointer') continue;
			const step = adjusterOf[act.adjuster];
			const [adjuster] = step.adjusters;
			if (adjuster === undefined) continue;
			// Counted from what comes in there now, so that the pointer's own error does not matter.
			bench.pointAt(act.sitAtDialHz);
			tune(bench, step, tuneIn(bench, step, act.sitAtDialHz) + act.moveByHz);
			peak(bench, adjuster, 'maximum');
		}
	}
	const { dialHz } = stepPlace(steps.antenna, bench.set.design);
	bench.pointAt(dialHz);
	tune(bench, steps.antenna, tuneIn(bench, steps.antenna, dialHz));
	for (const adjuster of steps.antenna.adjusters) peak(bench, adjuster, 'maximum');
}
