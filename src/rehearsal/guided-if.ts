import type { Prescription } from '#advice/response/prescription.ts';
import { analyseResponse, type ResponseAnswer } from '#advice/response/response-answer.ts';
import type { SheetStep } from '#advice/sheet-step.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import type { SimulatedBench } from './simulated-bench.ts';
import { stepPlace } from './step-place.ts';

/** Frequencies of a sweep, from the IF, hertz. */
const spanHz = 24e3;
const stepHz = 2e3;
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

function sweep(bench: SimulatedBench, step: SheetStep, ifHz: number): readonly CurvePoint[] {
	const points: CurvePoint[] = [];
	for (let offHz = -spanHz; offHz <= spanHz; offHz += stepHz) {
		const frequencyHz = ifHz + offHz;
		points.push({ frequencyHz, levelDb: levelAt(bench, step, frequencyHz), uncertaintyDb: null });
	}
	return points;
}

/** Turns an adjuster until the level at the generator's frequency is the one that was asked for. */
function follow(bench: SimulatedBench, step: SheetStep, adjuster: string, act: Prescription): void {
	bench.adjustments++;
	const read = (): number => levelAt(bench, step, act.generatorHz);
	const drift = read() - act.referenceDb;
	const wantedDb = act.expectedDb + drift;
	let fromTurns = bench.turnsOf(adjuster);
	let fromDb = act.referenceDb + drift;
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

/** The single acts of an answer; its last advice is the proof sweep. */
const actsOf = ({ advice }: ResponseAnswer): readonly Prescription[] =>
	advice.filter((act): act is Prescription => 'adjuster' in act);

/**
 * Sets the IF strip by its curve: a sweep, one small turn in each can with a sweep after each (of all four where that leaves doubt), then the acts that the advice gives.
 * The aim is every circuit on the IF.
 * Nothing but the product's own advice is used. Where it names no adjuster the strip is left as it was peaked.
 * @param cans the adjusters of each can, last can first
 */
export function guideIf(
	bench: SimulatedBench,
	step: SheetStep,
	ifHz: number,
	cans: readonly (readonly [string, string])[],
): void {
	const partnerOf = new Map(cans.map(([name, partner]) => [`partner of ${name}`, partner]));
	for (let round = 0; round < mostRounds; round++) {
		const base = sweep(bench, step, ifHz);
		const nudges: Nudge[] = [];
		const nudge = (name: string): void => {
			bench.turnTo(name, bench.turnsOf(name) + nudgeTurns);
			nudges.push({ name, points: sweep(bench, step, ifHz) });
		};
		const analysed = (): ResponseAnswer =>
			analyseResponse({
				base,
				nudges,
				second: null,
				ifHz,
				toneHz: step.generator?.toneHz ?? 400,
				meterDb: bench.meterDb,
				generatorHz: 0,
				windingCount: 2 * cans.length,
				aim: { kind: 'on IF' },
			}).answer;
		for (const [name] of cans) nudge(name);
		let answer = analysed();
		// Where two nudges leave it open which strip it is, the others settle it.
		if (actsOf(answer).length === 0 && answer.refused === undefined) {
			for (const [, partner] of cans) nudge(partner);
			answer = analysed();
		}
		const acts = actsOf(answer);
		if (acts.length === 0) {
			for (const { name } of nudges) bench.turnTo(name, bench.turnsOf(name) - nudgeTurns);
			return;
		}
		const beforeDb = levelAt(bench, step, ifHz);
		const before = new Map(cans.flat().map((id) => [id, bench.turnsOf(id)]));
		for (const act of acts) follow(bench, step, partnerOf.get(act.adjuster) ?? act.adjuster, act);
		// The proof: a strip that has become weaker goes back to where it was, by count.
		if (levelAt(bench, step, ifHz) < beforeDb - worseDb) {
			for (const [id, turns] of before) bench.turnTo(id, turns);
			for (const { name } of nudges) bench.turnTo(name, bench.turnsOf(name) - nudgeTurns);
			return;
		}
		if (answer.adjusters.every(({ offHz }) => Math.abs(offHz) < nearHz)) return;
	}
}
