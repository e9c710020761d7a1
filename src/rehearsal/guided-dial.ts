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
/** The generator is tuned about a mark within this, coarse and then fine, hertz. */
const searchHz = 40e3;
const coarseHz = 4e3;
const fineHz = 3e3;
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

/** The generator frequency at which the set answers best with its pointer where it stands: coarse by ear, then the middle of the peak by the meter. */
function tuneIn(bench: SimulatedBench, step: SheetStep, nearHz: number): number {
	const levelAt = (frequencyHz: number): number => {
		tune(bench, step, frequencyHz);
		return bench.readDb();
	};
	tune(bench, step, nearHz);
	bench.setLevel();
	let best = { atHz: nearHz, levelDb: Number.NEGATIVE_INFINITY };
	for (let offHz = -searchHz; offHz <= searchHz; offHz += coarseHz) {
		const levelDb = levelAt(nearHz + offHz);
		if (levelDb > best.levelDb) best = { atHz: nearHz + offHz, levelDb };
	}
	for (let round = 0; round < 2; round++) {
		tune(bench, step, best.atHz);
		bench.setLevel();
		const [below, middle, above] = [-fineHz, 0, fineHz].map((offHz) => levelAt(best.atHz + offHz)) as [
			number,
			number,
			number,
		];
		const bend = 2 * middle - below - above;
		const offHz = bend > 0 ? (fineHz * (above - below)) / (2 * bend) : 0;
		best = { ...best, atHz: best.atHz + Math.min(Math.max(offHz, -fineHz), fineHz) };
	}
	return best.atHz;
}

/**
 * Puts the dial right by what is heard at its marks: the acts that the advice gives, then the antenna trimmer.
 * Nothing but the product's own advice is used.
 */
export function guideDial(bench: SimulatedBench, ground: DialGround, steps: DialSteps): void {
	const { lowHz, highHz } = ground.band;
	const adjusterOf = { trimmer: steps.oscillator, padder: steps.low, slug: steps.low } as const;
	const points: DialPoint[] = [];
	for (let pass = 0; pass < mostPasses; pass++) {
		for (let k = 0; k < marksLookedAt; k++) {
			const dialHz = lowHz + ((highHz - lowHz) * (k + 0.5)) / marksLookedAt;
			for (let again = 0; again < readingsEach; again++) {
				bench.pointAt(dialHz);
				points.push({ dialHz, heardHz: tuneIn(bench, steps.oscillator, dialHz), heardUncertaintyHz, pass });
			}
		}
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
