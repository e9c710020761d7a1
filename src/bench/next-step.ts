import type { Sheet, SheetStep } from '#advice/sheet-step.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import { decimalWords } from '#record/quantity-words.ts';
import type { RunState } from './run-state.ts';

/** Passes after which no further one is proposed (chosen: peaking that has not come to rest by then needs another method). */
const mostPasses = 6;
/** No pass is told to gain less than this, however fine the meter: hands and drift do as much (chosen). */
const leastGainDb = 0.1;
const gainSigmas = 2;

/** The pass that was just ended, and whether it asks for another. */
export interface PassGain {
	/** The step that asks for the repeats. */
	readonly step: string;
	/** 1 for the first. */
	readonly pass: number;
	/** Decibels, more being better; `null` where nothing was read. */
	readonly gainDb: Estimate | null;
	/** Least gain that the meter can tell from none. */
	readonly toldDb: number;
	readonly words: string;
}

/** What comes next. */
export interface NextStep {
	/** `undefined` when all is done. */
	readonly step: SheetStep | undefined;
	/** The pass that was just ended, where the next step or the one after it is a repeat. */
	readonly passed: PassGain | null;
}

interface Round {
	readonly pass: number;
	/** Steps of the round that are done. */
	readonly position: number;
	/** Index into the steps done where it began. */
	readonly begin: number;
}

/** The last round of a step's repeats: the first pass, or the last in which a repeat was worked. */
function lastRound({ id, repeat }: SheetStep, doneSteps: readonly string[]): Round {
	const first = doneSteps.indexOf(id);
	const begins = repeat.map((step) => doneSteps.indexOf(step)).filter((index) => index >= 0);
	let round: Round = { pass: 1, position: repeat.length, begin: Math.min(first, ...begins) };
	for (let index = first + 1; index < doneSteps.length; index++) {
		const isAnew = round.position === repeat.length;
		const expected = repeat[isAnew ? 0 : round.position];
		if (doneSteps[index] !== expected) continue;
		round = isAnew ? { pass: round.pass + 1, position: 1, begin: index } : { ...round, position: round.position + 1 };
	}
	return round;
}

function passGain(step: SheetStep, round: Round, { turns }: RunState): PassGain {
	const own = turns.filter((turn) => step.repeat.includes(turn.step) && turn.doneBefore >= round.begin);
	const gains = own.flatMap(({ gainDb }) => (gainDb === null ? [] : [gainDb]));
	const uncertainty = Math.hypot(...gains.map((gain) => gain.uncertainty ?? 0));
	const gainDb = gains.length === 0 ? null : { value: gains.reduce((sum, { value }) => sum + value, 0), uncertainty };
	const toldDb = Math.max(leastGainDb, gainSigmas * uncertainty);
	const what = `Pass ${round.pass}`;
	const words =
		gainDb === null
			? `${what} was not read: what it gained is not known.`
			: gainDb.value > toldDb
				? `${what} gained ${decimalWords(gainDb.value, 1)} dB${own.every(({ gainAt }) => gainAt === 'input') ? ' at the input' : ''}.`
				: `${what} gained less than the meter can tell (${toldDb.toFixed(1)} dB).`;
	return { step: step.id, pass: round.pass, gainDb, toldDb, words };
}

/**
 * The step that comes next: repeats while a pass gains more than the meter can tell, then the next of the sheet.
 * It is a proposal: a step begins when the person says so.
 */
export function nextStep({ steps }: Sheet, state: RunState): NextStep {
	const { doneSteps, leftRepeats } = state;
	let passed: PassGain | null = null;
	for (const step of steps) {
		if (!doneSteps.includes(step.id)) return { step, passed };
		passed = null;
		if (step.repeat.length === 0) continue;
		const round = lastRound(step, doneSteps);
		const isWhole = round.position === step.repeat.length;
		const gain = passGain(step, round, state);
		passed = gain;
		if (leftRepeats.includes(step.id)) continue;
		const isWorthwhile = gain.gainDb !== null && gain.gainDb.value > gain.toldDb && round.pass < mostPasses;
		if (isWhole && !isWorthwhile) continue;
		const next = steps.find(({ id }) => id === step.repeat[isWhole ? 0 : round.position]);
		if (next) return { step: next, passed: isWhole ? gain : null };
	}
	return { step: undefined, passed };
}
