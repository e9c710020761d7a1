import { type Disturbance, disturbanceOf } from '#advice/coach/disturbance.ts';
import { type LevelStep, levelStep } from '#advice/coach/level-step.ts';
import { meanOf } from '#advice/coach/steadiness.ts';
import type { FittedLaw } from './avc-laws.ts';
import type { KeptLevel, LevelCheck, LevelPurpose } from './kept-level.ts';
import { type InputScale, type LawCheck, lawCheck } from './level-scale.ts';
import { isTyped, levelReached, statedDb, trustedDb } from './reference.ts';
import { comparable, type RunState } from './run-state.ts';

/** Where the work on one adjuster stands. Nothing but the person's key goes from one to the next. */
export type FlowPhase =
	| 'reference before'
	| 'turn'
	| 'reference after'
	| 'count'
	| 'hands off'
	| 'hands on'
	| 'before the step'
	| 'after the step';

/** Readings of each half of the hands check: five seconds. */
const checkFrames = 50;
/** Readings of a live meter on either side of the 6 dB step. */
const stepFrames = 10;

const following: Readonly<Record<FlowPhase, FlowPhase>> = {
	'reference before': 'turn',
	turn: 'reference after',
	'reference after': 'count',
	count: 'reference before',
	'hands off': 'hands on',
	'hands on': 'reference before',
	'before the step': 'after the step',
	'after the step': 'reference before',
};

/** What a reading of this phase is kept for. */
export function keptFor(phase: FlowPhase): { readonly purpose: LevelPurpose; readonly check?: LevelCheck } {
	switch (phase) {
		case 'reference before':
		case 'reference after':
			return { purpose: phase };
		case 'turn':
		case 'count':
			return { purpose: 'live' };
		default:
			return { purpose: 'check', check: phase };
	}
}

/** Readings of the present phase: the latest of one purpose, without a gap. */
function ofPhase(levels: readonly KeptLevel[], phase: FlowPhase, setting: number): readonly KeptLevel[] {
	const { purpose, check = null } = keptFor(phase);
	const first = levels.findLastIndex((level) => level.purpose !== purpose || level.check !== check) + 1;
	return levels.slice(first).filter((level) => level.setting === setting);
}

/**
 * Whether the phase has what it needs, so that the key goes on: a settled reading, or five seconds of readings.
 * @param levels readings of the adjuster in hand, checks too, oldest first
 */
export function isReady(phase: FlowPhase, levels: readonly KeptLevel[], setting: number): boolean {
	if (phase === 'turn') return true;
	if (phase === 'count') return false;
	const own = ofPhase(levels, phase, setting);
	const isOfHands = phase === 'hands off' || phase === 'hands on';
	return isOfHands ? trustedDb(comparable(own)).length >= checkFrames : levelReached(own) !== null;
}

/** The phase after the key: the same while it is not ready. */
export function afterKey(phase: FlowPhase, ready: boolean): FlowPhase {
	return ready ? following[phase] : phase;
}

const ofCheck = (levels: readonly KeptLevel[], check: LevelCheck): readonly KeptLevel[] =>
	levels.filter((level) => level.check === check && !level.isStruck);

/** What the hand does, from the check just made on the adjuster in hand: of the input where the scale reaches, otherwise of the reading; `null` where it is not whole. */
export function handRead(
	levels: readonly KeptLevel[],
	scale: InputScale | null,
): (Disturbance & { readonly at: 'input' | 'output' }) | null {
	const checks = levels.filter(({ check }) => check === 'hands off' || check === 'hands on');
	const turned = scale?.levels(checks) ?? null;
	const read = (check: LevelCheck) => trustedDb(comparable(ofCheck(turned ?? checks, check))).slice(-checkFrames);
	const hand = disturbanceOf(read('hands off'), read('hands on'));
	return hand && { ...hand, at: turned ? 'input' : 'output' };
}

/** The disturbance of the hand as last measured in this step, on this adjuster if it was, in the decibels asked for; `null` where it was not. */
export function handDisturbance(
	{ hands }: RunState,
	step: string,
	adjuster: string,
	at: 'input' | 'output' = 'output',
): Disturbance | null {
	const inStep = hands.filter((hand) => hand.step === step && (hand.at ?? 'output') === at);
	return inStep.findLast((hand) => hand.adjuster === adjuster) ?? inStep.at(-1) ?? null;
}

interface StepReadings {
	readonly beforeDb: readonly number[];
	readonly afterDb: readonly number[];
	readonly statedDb: number;
}

/** The readings of the last 6 dB step of the adjuster in hand; `null` where none was made. */
function stepReadings(levels: readonly KeptLevel[]): StepReadings | null {
	const after = ofCheck(levels, 'after the step');
	const before = ofCheck(levels, 'before the step');
	const last = after.at(-1);
	if (!last || before.length === 0) return null;
	const count = isTyped(last) ? 1 : stepFrames;
	const afterDb = trustedDb(comparable(after)).slice(-count);
	const beforeDb = trustedDb(comparable([...before, last]).slice(0, -1)).slice(-count);
	return afterDb.length < count || beforeDb.length < count ? null : { beforeDb, afterDb, statedDb: statedDb(after) };
}

/** What the last 6 dB step of the adjuster in hand read; `null` where none was made. */
export function stepRead(levels: readonly KeptLevel[]): LevelStep | null {
	const read = stepReadings(levels);
	return read && levelStep(read.beforeDb, read.afterDb, read.statedDb);
}

/** What a law makes of that step; `null` where none was made or the law does not reach. */
export function stepByLaw(levels: readonly KeptLevel[], law: FittedLaw): LawCheck | null {
	const read = stepReadings(levels);
	if (!read) return null;
	const mean = (levelsDb: readonly number[]) => ({
		value: meanOf(levelsDb),
		uncertainty: read.statedDb / Math.sqrt(levelsDb.length),
	});
	return lawCheck(law, mean(read.beforeDb), mean(read.afterDb));
}
