import { coachAdvice } from '../src/advice/coach/turn.ts';
import { coachWords } from '../src/advice/coach/words.ts';
import type { SheetStep } from '../src/advice/sheet-step.ts';
import type { BenchSet } from '../src/core/receiver/bench-set.ts';
import { bestAlignment } from '../src/core/receiver/best.ts';
import { tm517 } from '../src/core/receiver/designs/tm-517.ts';
import { sensitivityV } from '../src/core/receiver/sensitivity.ts';
import { tamperedSet } from '../src/core/receiver/truth.ts';
import { VirtualSet } from '../src/instruments/virtual/virtual-set.ts';
import { stepPlace } from '../src/rehearsal/step-place.ts';
import { exampleCard, factsOf, sheetOf } from './example-set.ts';

/** Output that the hand keeps to, decibels of a volt: well above the noise, well below where AVC and the output tube flatten the peak. */
const wantedDbv = { low: -20, high: -8 } as const;
const stepTurns = 1 / 64;
/** Readings of the meter between two steps. */
const framesLooked = 6;
/** A hand that is not told to stop by then gives up. */
const mostSteps = 300;
const passes = 3;

/** How a hand that only does what the coach says left a set. */
export interface LedHand {
	/** Mean sensitivity lost against the best that this very set can have, decibels, as it was found and as it was left. */
	readonly foundBelowBestDb: number;
	readonly leftBelowBestDb: number;
	/** Most steps that one adjuster took; a hand that is led in circles takes all it may. */
	readonly longestTurn: number;
	readonly isStopped: boolean;
}

function belowBestDb(set: BenchSet, best: BenchSet): number {
	const losses = set.design.testHz.map((dialHz) => {
		const needed = sensitivityV(set, dialHz) ?? Number.POSITIVE_INFINITY;
		return 20 * Math.log10(needed / (sensitivityV(best, dialHz) as number));
	});
	return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}

/** Makes the signal as weak as will serve. */
function setLevel(set: VirtualSet): void {
	for (let turn = 0; turn < 40; turn++) {
		const levelDbv = set.read(0).levelDb?.value ?? Number.NEGATIVE_INFINITY;
		if (levelDbv < wantedDbv.low) set.changeLevel(6);
		else if (levelDbv > wantedDbv.high) set.changeLevel(-6);
		else return;
	}
}

/** Turns one adjuster as the coach's words say, and nothing else; gives back the steps taken. */
function turnAsTold(set: VirtualSet, adjuster: string, aim: 'maximum' | 'minimum'): number {
	setLevel(set);
	let levelsDb: number[] = [];
	let way = 1;
	let saidBefore = '';
	for (let step = 1; step <= mostSteps; step++) {
		if (!set.turn(adjuster, way * stepTurns)) way = -way;
		let said = '';
		for (let frame = 0; frame < framesLooked; frame++) {
			const { levelDb } = set.read(0);
			if (levelDb === null) continue;
			levelsDb.push(levelDb.value);
			const uncertaintyDb = levelDb.uncertainty as number;
			said = coachWords(
				coachAdvice({ levelsDb, aim, framesAveraged: 5, uncertaintyDb, disturbance: null }),
				aim,
				adjuster,
			);
		}
		if (said === '') {
			set.changeLevel(6);
			levelsDb = [];
		}
		if (said.startsWith('Back at')) return step;
		// Turned about once each time that it is asked for.
		const isAsked = said.includes('the other way');
		if (isAsked && !saidBefore.includes('the other way')) way = -way;
		saidBefore = said;
	}
	return mostSteps;
}

/** A hand works the demo set's sheet on a tampered virtual set, three passes at most, and does nothing but what the coach says. */
export function ledHand(seed: number): LedHand {
	const { steps } = sheetOf(factsOf(exampleCard()));
	const set = new VirtualSet(tamperedSet(tm517, seed), seed, null);
	const found = tamperedSet(tm517, seed);
	let longestTurn = 0;
	const work = (step: SheetStep): void => {
		const { generator, dialHz } = stepPlace(step, tm517);
		set.place(generator, dialHz);
		for (const adjuster of step.adjusters) {
			longestTurn = Math.max(longestTurn, turnAsTold(set, adjuster, step.aim === 'minimum' ? 'minimum' : 'maximum'));
		}
	};
	for (const step of steps.filter(({ kind }) => kind === 'adjust')) {
		work(step);
		for (let pass = 1; pass < passes; pass++) {
			for (const id of step.repeat) work(steps.find((other) => other.id === id) as SheetStep);
		}
	}
	const best = bestAlignment(found);
	return {
		foundBelowBestDb: belowBestDb(found, best),
		leftBelowBestDb: belowBestDb({ ...found, turns: set.state.turns }, best),
		longestTurn,
		isStopped: longestTurn < mostSteps,
	};
}
