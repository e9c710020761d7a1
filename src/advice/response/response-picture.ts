import { stripAfter } from '#core/estimate/adjuster-verdict.ts';
import { aimedStrip } from '#core/estimate/aim.ts';
import { type FittedLevel, fittedLevels } from '#core/estimate/fitted-levels.ts';
import { levelFunction } from '#core/estimate/response-model.ts';
import { stripModel, stripPlaces } from '#core/estimate/strip-model.ts';
import type { ResponseAnalysis } from './response-answer.ts';
import type { ResponseQuestion } from './response-question.ts';

/** The lines that belong to an answer: the fit of the latest sweep, and the shape that is aimed at. */
export interface ResponsePicture {
	readonly fit: readonly FittedLevel[];
	readonly target: readonly FittedLevel[];
}

const lineCount = 161;

/** Lines for a drawing of an answer; empty where no circuits were found. */
export function responsePicture(
	{ answer, measured, strip }: ResponseAnalysis,
	question: ResponseQuestion,
): ResponsePicture {
	const { ifHz, toneHz, generatorHz, base, aim } = question;
	if (!measured.fit || answer.refused !== undefined) return { fit: [], target: [] };
	const reachHz = Math.max(...base.map(({ frequencyHz }) => Math.abs(frequencyHz - ifHz)));
	const frequenciesHz = Array.from(
		{ length: lineCount },
		(_, index) => ifHz - reachHz + (2 * reachHz * index) / (lineCount - 1),
	);
	if (!strip) {
		const conditions = { ifHz, toneHz, generatorHz, meterDb: measured.meterDb };
		return { fit: fittedLevels(measured.fit, conditions, frequenciesHz), target: [] };
	}
	const level = levelFunction(stripModel(), toneHz / ifHz);
	const out = new Float64Array(stripPlaces.size + 1);
	const gainDb = strip.parameters[stripPlaces.size + strip.circuits.length] as number;
	const line = (parameters: Float64Array): FittedLevel[] =>
		frequenciesHz.map((frequencyHz) => {
			level(parameters, frequencyHz / ifHz, out);
			return { frequencyHz, levelDb: gainDb + (out[0] as number), uncertaintyDb: 0 };
		});
	const after = stripAfter(strip);
	const target = answer.aims.length === 0 ? [] : line(aimedStrip(after, aim, ifHz, toneHz).parameters);
	return { fit: line(after), target };
}
