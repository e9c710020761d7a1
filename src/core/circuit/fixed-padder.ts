import type { BandLimits, TiePoints } from './tracking-curve.ts';
import { type GangGiven, paddedFarad } from './tracking-parts.ts';

/** What a padder of some size leaves when coil and trimmer are set right at the first and the last tie point. */
export interface FixedPadder {
	readonly inductanceH: number;
	readonly trimmerF: number;
	readonly worstErrorHz: number;
	readonly worstAtHz: number;
}

const looks = 120;

/**
 * The oscillator above the signal with a given padder: coil and trimmer that make the first and last tie point right, and the worst error that is left on the band;
 * `null` when no trimmer of 0 or more does it.
 * @param straightH the antenna coil
 */
export function fixedPadder(
	padderF: number,
	pointsHz: TiePoints,
	{ lowHz, highHz }: BandLimits,
	ifHz: number,
	straightH: number,
	{ straysF, network, otherStraysF }: GangGiven,
): FixedPadder | null {
	const [first, , last] = pointsHz;
	const sectionF = (signalHz: number): number => 1 / ((2 * Math.PI * signalHz) ** 2 * straightH) - straysF;
	const wholeF = (signalHz: number, trimmerF: number): number =>
		paddedFarad({ inductanceH: 1, padderF, trimmerF }, sectionF(signalHz), network, otherStraysF);
	const wanted = ((last + ifHz) / (first + ifHz)) ** 2;
	const ratio = (trimmerF: number): number => wholeF(first, trimmerF) / wholeF(last, trimmerF);
	// The ratio falls as the trimmer grows.
	let low = 0;
	let high = 1e-9;
	if (ratio(low) < wanted || ratio(high) > wanted) return null;
	for (let step = 0; step < 60; step++) {
		const middle = (low + high) / 2;
		if (ratio(middle) > wanted) low = middle;
		else high = middle;
	}
	const trimmerF = (low + high) / 2;
	const inductanceH = 1 / ((2 * Math.PI * (first + ifHz)) ** 2 * wholeF(first, trimmerF));
	let worstErrorHz = 0;
	let worstAtHz = lowHz;
	for (let look = 0; look <= looks; look++) {
		const dialHz = lowHz + ((highHz - lowHz) * look) / looks;
		const oscillatorHz = 1 / (2 * Math.PI * Math.sqrt(inductanceH * wholeF(dialHz, trimmerF)));
		const errorHz = oscillatorHz - ifHz - dialHz;
		if (Math.abs(errorHz) > Math.abs(worstErrorHz)) {
			worstErrorHz = errorHz;
			worstAtHz = dialHz;
		}
	}
	return { inductanceH, trimmerF, worstErrorHz, worstAtHz };
}
