import { type LevelStep, levelStep } from '#advice/coach/level-step.ts';
import { unstatedDb } from '#advice/coach/steadiness.ts';
import type { CurvePoint } from '#core/estimate/level-noise.ts';
import { byLaw } from '#core/estimate/reading-scale.ts';
import type { LevelReading } from '#record/reading.ts';
import type { FittedLaw } from './avc-laws.ts';
import { type LawCheck, lawCheck } from './level-scale.ts';
import { countingPoints, type RunSweep } from './sweep-log.ts';
import { curvePoints } from './sweep-question.ts';

/** Meter and reference of the first reading of sweeps that counts; `null` where there is none, and for a file. */
export function sweptWith(sweeps: readonly RunSweep[]): Pick<LevelReading, 'instrument' | 'reference'> | null {
	const [first] = sweeps.flatMap(countingPoints);
	if (!first || first.instrument === null) return null;
	// What a generator's level counts from is none of a meter's references: no law is of it.
	return { instrument: first.instrument, reference: first.reference as LevelReading['reference'] };
}

/** The points of a sweep in decibels at the input by a law of the set, those that it does not reach left out; as they were read where it is of another meter. */
export function pointsBy(law: FittedLaw | null, sweep: RunSweep): readonly CurvePoint[] {
	const points = curvePoints(sweep);
	const own = sweptWith([sweep]);
	if (law === null || own?.instrument !== law.instrument || own.reference !== law.reference) return points;
	const scale = byLaw(law.law, 0);
	return points.flatMap((point) => scale.curve(point) ?? []);
}

/** A step of 6 dB between two sweeps where both were read highest, and what a law makes of it; `null` where they have no frequency in common or the law does not reach. */
export function sweptStep(
	law: FittedLaw,
	base: RunSweep,
	second: RunSweep,
): { readonly read: LevelStep; readonly check: LawCheck } | null {
	const after = new Map(curvePoints(second).map((point) => [point.frequencyHz, point]));
	const [top] = curvePoints(base)
		.filter(({ frequencyHz }) => after.has(frequencyHz))
		.sort((one, other) => other.levelDb - one.levelDb);
	const weaker = top && after.get(top.frequencyHz);
	if (!weaker) return null;
	const estimate = ({ levelDb, uncertaintyDb }: CurvePoint) => ({ value: levelDb, uncertainty: uncertaintyDb });
	const check = lawCheck(law, estimate(top), estimate(weaker));
	const sigmaDb = Math.max(top.uncertaintyDb ?? unstatedDb, weaker.uncertaintyDb ?? unstatedDb);
	return check && { read: levelStep([top.levelDb], [weaker.levelDb], sigmaDb), check };
}
