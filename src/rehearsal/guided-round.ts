import { nextFrequencyHz } from '#advice/response/next-frequency.ts';
import type { Prescription } from '#advice/response/prescription.ts';
import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import type { SweepRole } from '#record/sweep-reading.ts';

/** An IF strip of two double-tuned transformers in a hand that reads and turns it. */
export interface StripInHand {
	readonly adjusters: readonly string[];
	/** One reading of the curve, decibels. */
	readDb(frequencyHz: number): number;
	/** Turns one adjuster, clockwise positive. */
	turn(adjuster: string, turns: number): void;
	/**
	 * Does one act of the advice.
	 * @param nudgeTurns the nudge that its direction counts from
	 */
	follow(act: Prescription, nudgeTurns: number): void;
}

/** One round of guided work. */
export interface GuidedRound {
	readonly answer: ResponseAnswer;
	/** Done in this order; none where the advice names no adjuster: the nudges are then left in place. */
	readonly acts: readonly Prescription[];
	readonly readings: number;
}

/**
 * A sweep at the frequencies that are proposed, one after the other.
 * @param before the sweep that was read last; empty for a first one
 * @param begun points that were read already
 */
export function proposedSweep(
	ifHz: number,
	role: SweepRole,
	before: readonly CurvePoint[],
	read: (frequencyHz: number) => CurvePoint,
	begun: readonly CurvePoint[] = [],
): readonly CurvePoint[] {
	let points = begun;
	for (;;) {
		const frequencyHz = nextFrequencyHz(points, ifHz, role, before);
		if (frequencyHz === null) return points;
		points = [...points, read(frequencyHz)].sort((one, other) => one.frequencyHz - other.frequencyHz);
	}
}

/** Settings of one round at most: each adjuster once, and what the proof still finds off (chosen). */
const mostActs = 8;

/**
 * Base sweep, a nudge of each adjuster with a few points, once more where that is ambiguous, then the acts that the advice gives, each computed anew from what the one before it left, a sweep as proof, and what is still off once more. Every reading stays in the fit.
 * @param meterDb standard uncertainty of a reading, as the person states it
 */
export function guidedRound(
	strip: StripInHand,
	plain: Pick<ResponseQuestion, 'ifHz' | 'toneHz' | 'aim' | 'law'>,
	meterDb: number,
	nudgeTurns: number,
): GuidedRound {
	let readings = 0;
	const read = (frequencyHz: number): CurvePoint => {
		readings++;
		return { frequencyHz, levelDb: strip.readDb(frequencyHz), uncertaintyDb: null };
	};
	const base = proposedSweep(plain.ifHz, 'base', [], read);
	const nudges: Nudge[] = [];
	const answered = (): ResponseAnswer =>
		analyseResponse({
			...plain,
			base,
			nudges,
			second: null,
			meterDb,
			generatorHz: 0,
			windingCount: strip.adjusters.length,
		}).answer;
	const nudged = (): ResponseAnswer => {
		for (const name of strip.adjusters) {
			strip.turn(name, nudgeTurns);
			const before = nudges.at(-1)?.points ?? base;
			nudges.push({ name, points: proposedSweep(plain.ifHz, 'nudge', before, read) });
		}
		return answered();
	};
	const first = nudged();
	const isAmbiguous = first.findings.some(({ kind }) => kind === 'ambiguous');
	const answer = isAmbiguous ? nudged() : first;
	const done: Prescription[] = [];
	/** The reading before a turn belongs to what was read last, the one after it to the setting. */
	const follow = (act: Prescription): void => {
		const before = nudges.pop() as Nudge;
		const reference = read(act.generatorHz);
		nudges.push({ ...before, points: [...before.points, reference] });
		const offDb = reference.levelDb - act.referenceDb;
		const carriedDb = Math.abs(offDb) > act.carryDb ? act.carryShare * offDb : 0;
		strip.follow({ ...act, expectedDb: act.expectedDb + carriedDb }, nudgeTurns);
		const points = proposedSweep(plain.ifHz, 'setting', [], read, [read(act.generatorHz)]);
		nudges.push({ name: act.adjuster, points, aimedHz: act.moveHz });
		done.push(act);
	};
	let latest = answer;
	for (;;) {
		const act = latest.advice.find((one): one is Prescription => one.generatorHz !== undefined);
		const isProved = done.length === 0 || nudges.at(-1)?.name === null;
		if (act && done.length < mostActs) follow(act);
		else if (isProved) break;
		else nudges.push({ name: null, points: proposedSweep(plain.ifHz, 'proof', [], read) });
		latest = answered();
	}
	return { answer: latest, acts: done, readings };
}
