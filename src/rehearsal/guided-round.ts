import { nextFrequencyHz } from '#advice/response/next-frequency.ts';
import type { Prescription } from '#advice/response/prescription.ts';
import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { ResponseQuestion } from '#advice/response/response-question.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';

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
 */
export function proposedSweep(
	ifHz: number,
	role: 'base' | 'nudge',
	before: readonly CurvePoint[],
	read: (frequencyHz: number) => CurvePoint,
): readonly CurvePoint[] {
	let points: readonly CurvePoint[] = [];
	for (;;) {
		const frequencyHz = nextFrequencyHz(points, ifHz, role, before);
		if (frequencyHz === null) return points;
		points = [...points, read(frequencyHz)].sort((one, other) => one.frequencyHz - other.frequencyHz);
	}
}

/**
 * Base sweep, a nudge of each adjuster with a few points, once more where that is ambiguous, and the acts that the advice gives.
 * @param meterDb standard uncertainty of a reading, as the person states it
 */
export function guidedRound(
	strip: StripInHand,
	plain: Pick<ResponseQuestion, 'ifHz' | 'toneHz' | 'aim'>,
	meterDb: number,
	nudgeTurns: number,
): GuidedRound {
	const read = (frequencyHz: number): CurvePoint => ({
		frequencyHz,
		levelDb: strip.readDb(frequencyHz),
		uncertaintyDb: null,
	});
	const base = proposedSweep(plain.ifHz, 'base', [], read);
	const nudges: Nudge[] = [];
	const answered = (): ResponseAnswer => {
		for (const name of strip.adjusters) {
			strip.turn(name, nudgeTurns);
			const before = nudges.at(-1)?.points ?? base;
			nudges.push({ name, points: proposedSweep(plain.ifHz, 'nudge', before, read) });
		}
		return analyseResponse({
			...plain,
			base,
			nudges,
			second: null,
			meterDb,
			generatorHz: 0,
			windingCount: strip.adjusters.length,
		}).answer;
	};
	const first = answered();
	const isAmbiguous = first.findings.some(({ kind }) => kind === 'ambiguous');
	const answer = isAmbiguous ? answered() : first;
	const acts = answer.advice.filter((act): act is Prescription => act.generatorHz !== undefined);
	for (const act of acts) strip.follow(act, nudgeTurns);
	const readings = base.length + nudges.reduce((sum, { points }) => sum + points.length, 0) + 2 * acts.length;
	return { answer, acts, readings };
}
