import { type Compression, compression } from '#core/estimate/compression.ts';
import { type CurveReading, readCurve } from '#core/estimate/curve-reading.ts';
import { isRefused, offModelDb } from '#core/estimate/fit-gate.ts';
import { type CurvePoint, scatterDb } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import { fitPoles, type PoleFit, type SweepConditions } from '#core/estimate/pole-fit.ts';
import { asRead, byLaw, byTwoSweeps, type ReadingScale } from '#core/estimate/reading-scale.ts';
import type { ResponseQuestion } from './response-question.ts';

/** A base sweep with what was found of it, before any nudge. */
export interface MeasuredSweep {
	/** The base sweep, AVC and detector taken out by a law of the set, or where a second sweep showed them. */
	readonly points: readonly CurvePoint[];
	/** What was read after each nudge, likewise. */
	readonly nudges: readonly Nudge[];
	/** How the meter's readings stand to those points. */
	readonly scale: ReadingScale;
	/** What the points' decibels count: the input, by a law of the set, or what the meter shows. */
	readonly levelsAt: 'input' | 'output';
	/** Readings that the law does not reach; they are left out. */
	readonly outsideLawCount: number;
	/** Standard uncertainty of a reading of the meter, in its own decibels. */
	readonly meterDb: number;
	/** The meter's uncertainty was neither given nor could it be had from the readings' scatter. */
	readonly isMeterAssumed: boolean;
	readonly curve: CurveReading;
	/** What the second sweep says; at the input: whether the law still holds. */
	readonly compressed: Compression | null;
	/** `null` when there are too few points. */
	readonly fit: PoleFit | null;
	/** Four resonances do not make this curve. */
	readonly isRefused: boolean;
}

/** A level read off a meter by a careful person, in decibels (chosen), where nothing better is known. */
const usualMeterDb = 0.2;
/** How strongly neighbouring residuals may go together, in standard deviations of what chance gives (chosen: once in ten thousand sweeps). */
const mostFollowing = 3.7;
/** Fewest frequencies that show a curve. */
const fewestOfCurve = 5;
/** Fewest points for so many resonances: two unknowns each, the gain, and something to judge them by. */
const fewestForModel = (windingCount: number): number => 2 * windingCount + 5;

function conditionsOf({ ifHz, toneHz, generatorHz }: ResponseQuestion, meterDb: number): SweepConditions {
	return { ifHz, toneHz, generatorHz, meterDb };
}

/** The points of a sweep on a scale, those that it does not reach left out. */
const onScale = (points: readonly CurvePoint[], { curve }: ReadingScale): readonly CurvePoint[] =>
	points.flatMap((point) => curve(point) ?? []);

/** Whether a sweep still shows a curve: five frequencies. */
export const isCurve = (points: readonly CurvePoint[]): boolean =>
	new Set(points.map(({ frequencyHz }) => frequencyHz)).size >= fewestOfCurve;

/** How a question's readings are brought to one straight scale. */
interface Straightening {
	readonly scaleWith: (meterDb: number) => ReadingScale;
	readonly levelsAt: MeasuredSweep['levelsAt'];
	readonly compressed: Compression | null;
}

function comparedSweeps(base: readonly CurvePoint[], second: readonly CurvePoint[] | null, meterDb: number) {
	if (second === null || base.length === 0 || second.length === 0) return null;
	const top = (points: readonly CurvePoint[]): number => Math.max(...points.map(({ levelDb }) => levelDb));
	return compression(base, second, meterDb, top(second) < top(base) ? 6 : -6);
}

function straightening({ base, second, law }: ResponseQuestion, meterDb: number): Straightening {
	const lawScale = law && byLaw(law, meterDb);
	if (lawScale && isCurve(onScale(base, lawScale))) {
		const compressed = comparedSweeps(onScale(base, lawScale), second && onScale(second, lawScale), meterDb);
		return { scaleWith: (sigmaDb) => byLaw(law, sigmaDb), levelsAt: 'input', compressed };
	}
	const compressed = comparedSweeps(base, second, meterDb);
	const bends = compressed !== null && Math.abs(compressed.of6Db.value - 6) > 2 * (compressed.of6Db.uncertainty ?? 0);
	// The law holds for whatever was read at either level.
	const scale = bends ? byTwoSweeps(compressed, Math.max(...base.map(({ levelDb }) => levelDb))) : asRead;
	return { scaleWith: () => scale, levelsAt: 'output', compressed };
}

/** Chi-squared per degree so low says that the scatter of neighbours overstated the meter's uncertainty: the curve bends between them. */
function fitWithScatter(
	pointsWith: (meterDb: number) => readonly CurvePoint[],
	question: ResponseQuestion,
	meterDb: number,
): { fit: PoleFit; meterDb: number } {
	const fitted = (sigmaDb: number): PoleFit =>
		fitPoles(pointsWith(sigmaDb), conditionsOf(question, sigmaDb), question.windingCount);
	let fit = fitted(meterDb);
	let better = meterDb;
	for (let round = 0; round < 3 && fit.chiSquaredPerDegree < 0.8; round++) {
		better = Math.max(0.01, better * Math.sqrt(fit.chiSquaredPerDegree));
		fit = fitted(better);
	}
	return { fit, meterDb: better };
}

/** What a base sweep says by itself. */
export function measuredSweep(question: ResponseQuestion): MeasuredSweep {
	const { base, ifHz, windingCount } = question;
	const scatter = question.meterDb === null ? scatterDb(base) : null;
	let meterDb = question.meterDb ?? scatter ?? usualMeterDb;
	const { scaleWith, levelsAt, compressed } = straightening(question, meterDb);
	const pointsWith = (sigmaDb: number): readonly CurvePoint[] => onScale(base, scaleWith(sigmaDb));
	let fit: PoleFit | null = null;
	if (pointsWith(meterDb).length >= fewestForModel(windingCount)) {
		if (question.meterDb === null && scatter !== null)
			({ fit, meterDb } = fitWithScatter(pointsWith, question, meterDb));
		else fit = fitPoles(pointsWith(meterDb), conditionsOf(question, meterDb), windingCount);
	}
	const scale = scaleWith(meterDb);
	const points = onScale(base, scale);
	const nudges = question.nudges.map((nudge) => ({ ...nudge, points: onScale(nudge.points, scale) }));
	const count = (sweeps: readonly (readonly CurvePoint[])[]): number =>
		sweeps.reduce((sum, sweep) => sum + sweep.length, 0);
	return {
		points,
		nudges,
		scale,
		levelsAt,
		outsideLawCount:
			count([base, ...question.nudges.map((nudge) => nudge.points)]) -
			count([points, ...nudges.map((nudge) => nudge.points)]),
		meterDb,
		isMeterAssumed: question.meterDb === null && scatter === null,
		curve: readCurve(points, meterDb, ifHz),
		compressed,
		fit,
		isRefused:
			fit !== null &&
			fit.leftDb > offModelDb.resonances &&
			(isRefused(fit.chiSquaredPerDegree, fit.degrees) || fit.followsOn > mostFollowing),
	};
}
