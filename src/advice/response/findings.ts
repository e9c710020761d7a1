import type { Aim } from '#core/estimate/aim.ts';
import { isStepHeld, stepWithinDb } from '#core/estimate/avc-law.ts';
import type { Compression } from '#core/estimate/compression.ts';
import type { CurveReading } from '#core/estimate/curve-reading.ts';
import type { PoleFit } from '#core/estimate/pole-fit.ts';
import { twinBand } from '#core/estimate/twins.ts';
import { kilocycleWords } from '#record/estimate-words.ts';
import type { IfStripFacts } from '#record/if-strip.ts';
import type { MeasuredSweep } from './measured-sweep.ts';
import type { ResponseQuestion } from './response-question.ts';

/** Something that a curve shows, in one word for programs and a sentence for people. */
export interface Finding {
	readonly kind:
		| 'peak'
		| 'humps'
		| 'meant so'
		| 'off centre'
		| 'asymmetry'
		| 'short sweep'
		| 'signal too strong'
		| 'detector knee'
		| 'outside law'
		| 'law holds no more'
		| 'meter assumed'
		| 'few points'
		| 'generator'
		| 'twins'
		| 'misfit'
		| 'feedback'
		| 'ambiguous'
		| 'vague'
		| 'found off'
		| 'one can only'
		| 'other strip';
	readonly words: string;
}

const kc = (hertz: number): string => (hertz / 1e3).toFixed(1);

/** What a curve shows without any model. */
export function curveFindings(curve: CurveReading, ifHz: number): readonly Finding[] {
	const found: Finding[] = [];
	const { peakHz, humpsHz, bandwidths, asymmetryDb5kHz, atIfBelowPeakDb } = curve;
	if ((peakHz.uncertainty ?? 0) > 250) {
		found.push({
			kind: 'peak',
			words: `The top is flat: the peak is known only as ${kilocycleWords(peakHz)}. The middle between the skirts says more.`,
		});
	}
	if (humpsHz.length > 1) {
		found.push({ kind: 'humps', words: `${humpsHz.length} humps, at ${humpsHz.map(kc).join(', ')} kc.` });
	}
	const skirts = bandwidths.findLast(({ belowPeakDb }) => belowPeakDb <= 20);
	if (skirts) {
		const offHz = skirts.centreHz.value - ifHz;
		if (Math.abs(offHz) > Math.max(3 * (skirts.centreHz.uncertainty ?? 0), 500)) {
			found.push({
				kind: 'off centre',
				words: `Half way between its skirts, ${skirts.belowPeakDb} dB down, the curve is centred on ${kilocycleWords(skirts.centreHz)}: ${kc(Math.abs(offHz))} kc ${offHz < 0 ? 'below' : 'above'} the IF.`,
			});
		}
	}
	if (asymmetryDb5kHz && Math.abs(asymmetryDb5kHz.value) > Math.max(3 * (asymmetryDb5kHz.uncertainty ?? 0), 1.5)) {
		found.push({
			kind: 'asymmetry',
			words: `5 kc above the IF the level is ${Math.abs(asymmetryDb5kHz.value).toFixed(1)} dB ${asymmetryDb5kHz.value < 0 ? 'lower' : 'higher'} than 5 kc below. Feedback tilts an aligned strip too: this alone is no proof that an adjuster is off.`,
		});
	}
	if (!atIfBelowPeakDb || bandwidths.length < 2) {
		found.push({
			kind: 'short sweep',
			words: !atIfBelowPeakDb
				? `The sweep does not reach the IF, ${kc(ifHz)} kc: read points on both sides of it.`
				: 'The sweep does not go 6 dB down on both sides: read further out.',
		});
	}
	return found;
}

/** The aim that the card means: symmetry where humps or a stagger are meant, otherwise every circuit on the IF. */
export function meantAim({ shape }: Pick<IfStripFacts, 'shape'>): Aim {
	return { kind: shape === 'peaked' ? 'on IF' : 'symmetrical' };
}

/** What the card says of the shape, before a curve is judged by it; nothing for a strip that is meant to be peaked. */
export function shapeFindings({ shape, aim }: Pick<ResponseQuestion, 'shape' | 'aim'>): readonly Finding[] {
	if (shape === undefined || shape === 'peaked') return [];
	const meant =
		shape === 'overcoupled'
			? 'The card says that this strip is overcoupled: two humps are meant, and a dip between them is no fault.'
			: 'The card says that this strip is staggered: its circuits are meant to lie apart.';
	const against =
		shape === 'staggered' && aim.kind === 'on IF'
			? ' Every circuit on the IF would take the stagger out: choose a symmetrical curve or a width.'
			: '';
	return [{ kind: 'meant so', words: meant + against }];
}

/** Whether the generator was too strong for AVC, or so weak that the detector bends: from a 6 dB step that reads otherwise. */
export function compressionFindings({ of6Db }: Compression): readonly Finding[] {
	const read = of6Db.value.toFixed(1);
	if (of6Db.value < 6 - stepWithinDb) {
		return [
			{
				kind: 'signal too strong',
				words: `A 6 dB step of the generator reads ${read} dB at the top: AVC flattens the curve. The figures are corrected by the two sweeps. Better: a weaker signal, or keep the meter at one reading and note the generator's level at each frequency; its decibels are the curve, whatever AVC does.`,
			},
		];
	}
	if (of6Db.value > 6 + stepWithinDb) {
		return [
			{
				kind: 'detector knee',
				words: `A 6 dB step of the generator reads ${read} dB at the top: the signal is below the detector's knee, and the curve looks sharper than it is. The figures are corrected by the two sweeps. Better: a stronger signal, or keep the meter at one reading and note the generator's level at each frequency.`,
			},
		];
	}
	return [];
}

/** What an AVC law of the set leaves out, and whether it still holds by a second sweep 6 dB weaker or stronger. */
export function lawFindings(
	{ levelsAt, outsideLawCount, compressed }: Pick<MeasuredSweep, 'levelsAt' | 'outsideLawCount' | 'compressed'>,
	{ law }: Pick<ResponseQuestion, 'law'>,
): readonly Finding[] {
	if (!law) return [];
	if (levelsAt === 'output') {
		return [
			{
				kind: 'outside law',
				words: 'The AVC law reaches too few of these readings: the curve is shown as it was read.',
			},
		];
	}
	const found: Finding[] = [];
	if (outsideLawCount > 0) {
		found.push({
			kind: 'outside law',
			words: `${outsideLawCount === 1 ? '1 reading lies' : `${outsideLawCount} readings lie`} outside the AVC law and ${outsideLawCount === 1 ? 'is' : 'are'} left out of the figures.`,
		});
	}
	if (compressed && !isStepHeld(compressed.of6Db)) {
		found.push({
			kind: 'law holds no more',
			words: `A 6 dB step of the generator is ${compressed.of6Db.value.toFixed(1)} dB at the input by the AVC law: the law holds no more. Was the volume moved, or a part or a tube changed? Show the curve as it was read, or measure the law anew.`,
		});
	}
	return found;
}

/** Why one sweep names no adjuster. */
export function twinFinding(fit: PoleFit, ifHz: number): Finding {
	const band = twinBand(fit.parameters, ifHz);
	const spread = band
		? `strips whose windings lie from ${kc(band.leastApartHz)} to ${kc(band.mostApartHz)} kc apart within a can have this very curve`
		: 'many strips have this very curve';
	return {
		kind: 'twins',
		words: `One sweep cannot tell which adjuster is off: ${spread}. Nudge one adjuster of each can by an eighth of a turn at most, leave it there, and sweep again.`,
	};
}

/** Likely causes of a curve that four tuned circuits cannot have, by what the misfit looks like. */
export function misfitFinding(fit: PoleFit, compressed: Compression | null, secondWasGiven: boolean): Finding {
	const sharp = Array.from(
		{ length: fit.count },
		(_, place) => 0.5 / Math.exp(fit.parameters[fit.count + place] as number),
	);
	const causes = [
		compressed && Math.abs(compressed.of6Db.value - 6) > stepWithinDb ? 'AVC or the detector bends the scale' : null,
		'the generator was not quite on each frequency (give its uncertainty)',
		Math.max(...sharp) > 250 ? 'a crystal or a stage on the edge of oscillation' : null,
		'feedback through a tube, or regeneration, that changes with level',
		secondWasGiven ? null : 'AVC at work (sweep again with the generator 6 dB weaker)',
		'a winding that does not respond, or the level drifting during the sweep',
	].filter((cause) => cause !== null);
	return {
		kind: 'misfit',
		words: `${fit.count === 4 ? 'Four' : fit.count} tuned circuits do not make this curve (chi-squared ${fit.chiSquaredPerDegree.toFixed(1)} per degree of freedom), so no numbers are given for them. Likely: ${causes.join('; ')}.`,
	};
}
