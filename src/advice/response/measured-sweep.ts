import { type Compression, compression } from '#core/estimate/compression.ts';
import { type CurveReading, readCurve } from '#core/estimate/curve-reading.ts';
import { isRefused } from '#core/estimate/fit-gate.ts';
import { type CurvePoint, scatterDb } from '#core/estimate/level-noise.ts';
import type { Nudge } from '#core/estimate/nudge-fit.ts';
import { fitPoles, type PoleFit, type SweepConditions } from '#core/estimate/pole-fit.ts';
import type { ResponseQuestion } from './response-question.ts';

/** A base sweep with what was found of it, before any nudge. */
export interface MeasuredSweep {
	/** The base sweep, AVC and detector taken out where a second sweep showed them. */
	readonly points: readonly CurvePoint[];
	/** What was read after each nudge, likewise. */
	readonly nudges: readonly Nudge[];
	readonly meterDb: number;
	/** The meter's uncertainty was neither given nor could it be had from the readings' scatter. */
	readonly isMeterAssumed: boolean;
	readonly curve: CurveReading;
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
/** What a fit may leave in rows of one sign without harm, in decibels (chosen). */
const negligibleDb = 0.05;
/** Fewest points for so many resonances: two unknowns each, the gain, and something to judge them by. */
const fewestForModel = (windingCount: number): number => 2 * windingCount + 5;

function conditionsOf({ ifHz, toneHz, generatorHz }: ResponseQuestion, meterDb: number): SweepConditions {
	return { ifHz, toneHz, generatorHz, meterDb };
}

/** Chi-squared per degree so low says that the scatter of neighbours overstated the meter's uncertainty: the curve bends between them. */
function fitWithScatter(
	points: readonly CurvePoint[],
	question: ResponseQuestion,
	meterDb: number,
): { fit: PoleFit; meterDb: number } {
	let fit = fitPoles(points, conditionsOf(question, meterDb), question.windingCount);
	let better = meterDb;
	for (let round = 0; round < 3 && fit.chiSquaredPerDegree < 0.8; round++) {
		better = Math.max(0.01, better * Math.sqrt(fit.chiSquaredPerDegree));
		fit = fitPoles(points, conditionsOf(question, better), question.windingCount);
	}
	return { fit, meterDb: better };
}

/** What a base sweep says by itself. */
export function measuredSweep(question: ResponseQuestion): MeasuredSweep {
	const { base, second, ifHz } = question;
	const scatter = question.meterDb === null ? scatterDb(base) : null;
	let meterDb = question.meterDb ?? scatter ?? usualMeterDb;
	const mean = (points: readonly CurvePoint[]): number => Math.max(...points.map(({ levelDb }) => levelDb));
	const isWeaker = second !== null && mean(second) < mean(base);
	const compressed = second && compression(base, second, meterDb, isWeaker ? 6 : -6);
	const bends = compressed !== null && Math.abs(compressed.of6Db.value - 6) > 2 * (compressed.of6Db.uncertainty ?? 0);
	// The law holds for whatever was read at either level.
	const straight = bends
		? ({ ...point }: CurvePoint) => ({ ...point, levelDb: compressed.inputDb(point.levelDb) })
		: null;
	const points = straight ? base.map(straight) : base;
	let fit: PoleFit | null = null;
	if (points.length >= fewestForModel(question.windingCount)) {
		if (question.meterDb === null && scatter !== null) ({ fit, meterDb } = fitWithScatter(points, question, meterDb));
		else fit = fitPoles(points, conditionsOf(question, meterDb), question.windingCount);
	}
	return {
		points,
		nudges: straight
			? question.nudges.map((nudge) => ({ ...nudge, points: nudge.points.map(straight) }))
			: question.nudges,
		meterDb,
		isMeterAssumed: question.meterDb === null && scatter === null,
		curve: readCurve(points, meterDb, ifHz),
		compressed,
		fit,
		isRefused:
			fit !== null &&
			(isRefused(fit.chiSquaredPerDegree, fit.degrees) || (fit.followsOn > mostFollowing && fit.leftDb > negligibleDb)),
	};
}
