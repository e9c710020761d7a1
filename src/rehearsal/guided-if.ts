import type { Prescription } from '#advice/response/prescription.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { Aim } from '#core/estimate/aim.ts';
import { guidedRound, type StripInHand } from './guided-round.ts';
import type { SimulatedBench } from './simulated-bench.ts';
import { stepPlace } from './step-place.ts';

/** The nudge of one screw, turns. */
const nudgeTurns = 1 / 8;
/** Rounds of sweep, nudges and acts before the hand lets it be. */
const mostRounds = 2;
/** Circuits nearer to the IF than this are let be. */
const nearHz = 400;
const mostTries = 8;
/** A strip that is weaker by this after the acts is taken back. */
const worseDb = 1.5;

/** Level of the strip at a frequency by the input for one and the same output: what AVC and detector do does not enter. */
function levelAt(bench: SimulatedBench, step: SheetStep, frequencyHz: number): number {
	const { generator, dialHz } = stepPlace(step, bench.set.design);
	bench.pointAt(dialHz);
	bench.hookUp({ ...generator, frequencyHz });
	return bench.inputDb();
}

/** Turns an adjuster until the level at the generator's frequency is the one that was asked for. */
function follow(bench: SimulatedBench, step: SheetStep, act: Prescription): void {
	const { adjuster } = act;
	bench.adjustments++;
	const read = (): number => levelAt(bench, step, act.generatorHz);
	const wantedDb = act.expectedDb;
	let fromTurns = bench.turnsOf(adjuster);
	let fromDb = read();
	const sign = act.direction === 'opposite' ? -1 : 1;
	// A partner's way is not known: a small turn tells it.
	let moveTurns = act.timesNudge === null ? nudgeTurns / 2 : sign * act.timesNudge * nudgeTurns;
	for (let attempt = 0; attempt < mostTries; attempt++) {
		bench.turnTo(adjuster, fromTurns + moveTurns);
		const atTurns = bench.turnsOf(adjuster);
		const atDb = read();
		if (Math.abs(atDb - wantedDb) <= Math.max(act.toleranceDb, bench.meterDb)) return;
		const slope = (atDb - fromDb) / (atTurns - fromTurns || 1e-6);
		fromTurns = atTurns;
		fromDb = atDb;
		const next = (wantedDb - atDb) / (slope || 1e-6);
		moveTurns = Math.min(Math.max(next, -2 * nudgeTurns), 2 * nudgeTurns);
	}
}

/**
 * Sets the IF strip by its curve to an aim. Nothing but the product's own advice is used.
 * Where it names no adjuster, or the strip has become weaker by the proof, every screw goes back by count to where it was peaked.
 */
export function guideIf(bench: SimulatedBench, step: SheetStep, ifHz: number, aim: Aim): void {
	const strip: StripInHand = {
		adjusters: step.adjusters,
		readDb: (frequencyHz) => levelAt(bench, step, frequencyHz),
		turn: (adjuster, turns) => bench.turnTo(adjuster, bench.turnsOf(adjuster) + turns),
		follow: (act) => follow(bench, step, act),
	};
	const plain = { ifHz, toneHz: step.generator?.toneHz ?? 400, aim };
	for (let round = 0; round < mostRounds; round++) {
		const before = step.adjusters.map((id) => [id, bench.turnsOf(id)] as const);
		const beforeDb = levelAt(bench, step, ifHz);
		const { acts, answer } = guidedRound(strip, plain, bench.meterDb, nudgeTurns);
		if (acts.length === 0 || levelAt(bench, step, ifHz) < beforeDb - worseDb) {
			for (const [id, turns] of before) bench.turnTo(id, turns);
			return;
		}
		// A symmetrical curve has its circuits off the IF on purpose: what the advice still finds off is all that counts.
		if (aim.kind !== 'on IF' || answer.adjusters.every(({ offHz }) => Math.abs(offHz) < nearHz)) return;
	}
}
