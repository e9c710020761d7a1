import { type AdjusterVerdict, adjusterVerdicts, stripAfter } from '#core/estimate/adjuster-verdict.ts';
import { aimedStrip } from '#core/estimate/aim.ts';
import { type Bandwidth, type CurveReading, readCurve } from '#core/estimate/curve-reading.ts';
import { isRefused } from '#core/estimate/fit-gate.ts';
import { fitNudges, type StripFit } from '#core/estimate/nudge-fit.ts';
import type { PoleFit } from '#core/estimate/pole-fit.ts';
import { stripPlaces } from '#core/estimate/strip-model.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import {
	compressionFindings,
	curveFindings,
	type Finding,
	lawFindings,
	misfitFinding,
	shapeFindings,
	twinFinding,
} from './findings.ts';
import { loadedPeaking } from './loaded-peaking.ts';
import { isCurve, type MeasuredSweep, measuredSweep } from './measured-sweep.ts';
import { nudgedCans, nudgeFindings } from './nudge-findings.ts';
import { dueActs, type Prescription } from './prescription.ts';
import type { ResponseQuestion } from './response-question.ts';

/** One adjuster, as a program reads it. */
export interface AdjusterAnswer {
	readonly name: string;
	/** Where the circuit sits after the last sweep. */
	readonly frequencyHz: Estimate;
	/** Where it sat before anything was turned. */
	readonly foundHz: Estimate;
	readonly offHz: number;
	readonly q: Estimate;
	/** 1 and 2: which can it belongs to, in the order of the nudges. */
	readonly can: number;
	/** Which way, against its own nudge, brings it to the IF; left out for a partner. */
	readonly direction?: 'same' | 'opposite';
	readonly timesNudge?: number;
}

/** What a choice of aim gives and costs. */
export interface AimAnswer {
	readonly aim: string;
	/** Level at the IF against every circuit on the IF. */
	readonly atIfDb: number;
	readonly width6Hz: number;
	readonly asymmetryDb5kHz: number;
}

/** The answer to a question about an IF curve; keys are SI with the unit at the end. */
export interface ResponseAnswer {
	readonly peakHz: Estimate;
	readonly atIfBelowPeakDb: Estimate | null;
	readonly bandwidths: readonly Bandwidth[];
	readonly slopeDbPerKHzAtIf: Estimate | null;
	readonly asymmetryDb5kHz: Estimate | null;
	readonly adjacent: readonly { readonly offsetHz: number; readonly belowIfDb: Estimate }[];
	readonly meterDb: number;
	/** Left out where the curve is judged in what the meter shows. */
	readonly levelsAt?: 'input';
	readonly compression?: { readonly stepDb: number; readonly of6Db: number };
	readonly poles: readonly { readonly frequencyHz: Estimate; readonly q: Estimate }[];
	readonly chiSquaredPerDegree: number | null;
	/** Why no numbers are given for the circuits. */
	readonly refused?: string;
	readonly adjusters: readonly AdjusterAnswer[];
	/** None while the readings do not name one strip. */
	readonly aims: readonly AimAnswer[];
	readonly findings: readonly Finding[];
	readonly advice: readonly ({ readonly words: string } & Partial<Prescription>)[];
}

/** An answer with the fits behind it, for a drawing. */
export interface ResponseAnalysis {
	readonly answer: ResponseAnswer;
	readonly measured: MeasuredSweep;
	readonly strip: StripFit | null;
}

/** A generator less sure than this names no adjuster: skirts of some dB a kilocycle turn it into decibels (chosen). */
const surestGeneratorHz = 500;

function polesOf(fit: PoleFit, ifHz: number): ResponseAnswer['poles'] {
	const spread = (place: number): number | null =>
		fit.covariance && Math.sqrt(fit.covariance[place * (2 * fit.count + 1)] as number);
	return Array.from({ length: fit.count }, (_, place) => {
		const q = 0.5 / Math.exp(fit.parameters[fit.count + place] as number);
		const tuningSpread = spread(place);
		const widthSpread = spread(fit.count + place);
		return {
			frequencyHz: {
				value: ifHz * (1 + (fit.parameters[place] as number)),
				uncertainty: tuningSpread === null ? null : tuningSpread * ifHz,
			},
			q: { value: q, uncertainty: widthSpread === null ? null : q * widthSpread },
		};
	}).sort((one, other) => one.frequencyHz.value - other.frequencyHz.value);
}

function adjusterAnswer(verdict: AdjusterVerdict, firstCan: number): AdjusterAnswer {
	const { name, frequencyHz, foundHz, offHz, q, nudgeHz, circuit } = verdict;
	const known = { name, frequencyHz, foundHz, offHz, q, can: circuit >> 1 === firstCan ? 1 : 2 };
	if (nudgeHz === null) return known;
	return {
		...known,
		direction: Math.sign(-offHz) === Math.sign(nudgeHz) ? 'same' : 'opposite',
		timesNudge: Math.abs(offHz / nudgeHz),
	};
}

/** What is left to do where no curve can name an adjuster. */
function withoutCurve({ ifHz, windingCount }: ResponseQuestion): readonly { readonly words: string }[] {
	const { words, cautions } = loadedPeaking(ifHz, windingCount);
	return [...cautions.map((caution) => caution.words), ...words].map((own) => ({ words: own }));
}

const aimWords = {
	'on IF': 'every circuit on the IF',
	symmetrical: 'a symmetrical curve',
	width: 'a wanted width',
} as const;

/** After a sweep that proves, a circuit is set again only when it is off by more than this share of what the fit and the setting are sure of (chosen by trial on simulated strips). */
const provedPatience = 0.7;

interface Judged {
	readonly adjusters: readonly AdjusterAnswer[];
	readonly aims: readonly AimAnswer[];
	readonly acts: readonly Prescription[];
	/** Whether the readings name one strip only. */
	readonly isSure: boolean;
	readonly findings: readonly Finding[];
}

/** What nudges say: where each adjuster's circuit is, what each aim costs, and the acts that reach the chosen one. */
function judged(strip: StripFit, question: ResponseQuestion, { meterDb, scale }: MeasuredSweep): Judged {
	const { ifHz, toneHz, nudges, aim } = question;
	const verdicts = adjusterVerdicts(strip, nudges, ifHz);
	const after = stripAfter(strip);
	const aimed = aimedStrip(after, aim, ifHz, toneHz);
	const onIf = aimedStrip(after, { kind: 'on IF' }, ifHz, toneHz);
	const choices = [
		onIf,
		aimedStrip(after, { kind: 'symmetrical' }, ifHz, toneHz),
		...(aim.kind === 'width' ? [aimed] : []),
	];
	const gainDb = strip.parameters[stripPlaces.size + strip.circuits.length] as number;
	const isSure = verdicts.every(({ isAmbiguous }) => !isAmbiguous) && nudgedCans(strip) > 1;
	const lastSweep = nudges.findLastIndex(({ name }) => name === null);
	const isSet = new Set(
		nudges.slice(lastSweep + 1).flatMap(({ name, aimedHz }) => (aimedHz === undefined ? [] : name)),
	);
	const patience = lastSweep < 0 ? 0 : provedPatience;
	const ground = { parameters: after, gainDb, ifHz, toneHz, meterDb, scale, patience };
	const open = verdicts.filter(({ name }) => !isSet.has(name));
	// A sweep without a turn has no circuit.
	const firstCan = (strip.circuits.find((circuit) => circuit >= 0) ?? 0) >> 1;
	return {
		adjusters: verdicts.map((verdict) => adjusterAnswer(verdict, firstCan)),
		aims: !isSure
			? []
			: choices.map((choice) => ({
					aim: aimWords[choice.aim.kind],
					atIfDb: choice.atIfDb - onIf.atIfDb,
					width6Hz: choice.width6Hz,
					asymmetryDb5kHz: choice.asymmetryDb5kHz,
				})),
		isSure,
		acts: isSure ? dueActs(ground, aimed, open) : [],
		findings: nudgeFindings(strip, verdicts, ifHz),
	};
}

const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);

/** The latest sweep that shows a whole curve: the last one without a turn that the scale reaches, or the base. */
function latestCurve({ nudges, meterDb, curve }: MeasuredSweep, ifHz: number): CurveReading {
	const proof = nudges.findLast(({ name, points }) => name === null && isCurve(points));
	return proof ? readCurve(proof.points, meterDb, ifHz) : curve;
}

function sweepFindings(measured: MeasuredSweep, curve: CurveReading, question: ResponseQuestion): readonly Finding[] {
	const { compressed, fit, isMeterAssumed, meterDb, levelsAt, points } = measured;
	const found: Finding[] = [
		...shapeFindings(question),
		...lawFindings(measured, question),
		...(compressed && levelsAt === 'output' ? compressionFindings(compressed) : []),
		...curveFindings(curve, question.ifHz),
	];
	if (isMeterAssumed) {
		found.push({
			kind: 'meter assumed',
			words: `Too few points tell how the readings scatter: ${meterDb.toFixed(1)} dB is assumed for each. Say what your meter can be read to.`,
		});
	}
	if (!fit) {
		found.push({
			kind: 'few points',
			words: `${points.length} points show the curve but not its circuits. Read 25 or more over 25 kc either side of the IF.`,
		});
	}
	return found;
}

/** All that a measured IF curve says, with its fits. */
export function analyseResponse(question: ResponseQuestion): ResponseAnalysis {
	const { ifHz, nudges, generatorHz } = question;
	const measured = measuredSweep(question);
	const { compressed, fit, meterDb } = measured;
	const curve = latestCurve(measured, ifHz);
	const findings: Finding[] = [...sweepFindings(measured, curve, question)];
	let refused: string | undefined;
	let strip: StripFit | null = null;
	let chiSquaredPerDegree = fit?.chiSquaredPerDegree ?? null;
	let told: Judged | null = null;
	const refuse = (finding: Finding): void => {
		refused = finding.words;
		findings.push(finding);
	};
	if (fit && measured.isRefused) refuse(misfitFinding(fit, compressed, question.second !== null));
	else if (fit && question.windingCount !== 4) {
		findings.push({
			kind: 'other strip',
			words: `This strip has ${question.windingCount} tuned windings. The curve and its resonances stand; adjusters are named for two double-tuned transformers only. Keep an intended stagger: judge by the middle between the skirts. Otherwise peak each winding with its partners loaded, and sweep again as the proof.`,
		});
	} else if (fit && nudges.every(({ name }) => name === null)) findings.push(twinFinding(fit, ifHz));
	else if (fit && generatorHz >= surestGeneratorHz) {
		refuse({
			kind: 'generator',
			words: `The generator is known to ${kc(generatorHz)} kc only: on a skirt that is several decibels, so no adjuster is named. Set each frequency by a counter or a receiver that reads to 0.1 kc; or peak each winding with its partner loaded.`,
		});
	} else if (fit) {
		strip = fitNudges(fit, measured.points, measured.nudges, { ifHz, toneHz: question.toneHz, meterDb, generatorHz });
		chiSquaredPerDegree = strip.chiSquaredPerDegree;
		if (isRefused(strip.chiSquaredPerDegree, strip.degrees)) {
			refuse(
				misfitFinding({ ...fit, chiSquaredPerDegree: strip.chiSquaredPerDegree }, compressed, question.second !== null),
			);
			strip = null;
		} else {
			told = judged(strip, question, measured);
			findings.push(...told.findings);
		}
	}
	const proof = {
		words:
			nudges.at(-1)?.name === null && told?.acts.length === 0
				? 'Every circuit is as near to its aim as these readings can tell. Let it be.'
				: 'Last, sweep once more: the new curve is the proof. Move again only what is off by more than its uncertainty.',
	};
	const answer: ResponseAnswer = {
		peakHz: curve.peakHz,
		atIfBelowPeakDb: curve.atIfBelowPeakDb,
		bandwidths: curve.bandwidths,
		slopeDbPerKHzAtIf: curve.slopeDbPerKHzAtIf,
		asymmetryDb5kHz: curve.asymmetryDb5kHz,
		adjacent: curve.adjacent,
		meterDb,
		...(measured.levelsAt === 'input' ? { levelsAt: 'input' } : {}),
		...(compressed ? { compression: { stepDb: compressed.stepDb.value, of6Db: compressed.of6Db.value } } : {}),
		poles: fit && refused === undefined ? polesOf(fit, ifHz) : [],
		chiSquaredPerDegree,
		...(refused === undefined ? {} : { refused }),
		adjusters: told?.adjusters ?? [],
		aims: told?.aims ?? [],
		findings,
		advice: told?.isSure
			? [...told.acts, proof]
			: generatorHz >= surestGeneratorHz || question.windingCount !== 4
				? withoutCurve(question)
				: [],
	};
	return { answer, measured, strip };
}
