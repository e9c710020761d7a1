import type { OscillatorSide } from '#core/circuit/tracking-curve.ts';

/** Which of two peaks an oscillator was set on. */
export type PeakSide =
	/** The dial's own frequency comes in. */
	| 'signal'
	/** The oscillator is on the other side: the dial's frequency comes in as the image. */
	| 'image'
	/** Only one frequency was heard, or none that fits. */
	| 'unclear';

/**
 * Which peak it is, by the two frequencies that come in with the dial left alone; never by which is louder, which an antenna peaked on the image turns round.
 * Oscillator above and right: the dial's frequency and the one two IFs above it. Wrong: the dial's and the one two IFs below.
 * @param heardHz all generator frequencies that come in
 * @param toleranceHz how far they may lie off
 */
export function peakSide(
	dialHz: number,
	ifHz: number,
	side: OscillatorSide,
	heardHz: readonly number[],
	toleranceHz: number,
): PeakSide {
	const isHeard = (wantedHz: number): boolean => heardHz.some((one) => Math.abs(one - wantedHz) <= toleranceHz);
	const away = side === 'above' ? 2 * ifHz : -2 * ifHz;
	const [right, wrong] = [isHeard(dialHz + away), isHeard(dialHz - away)];
	if (right === wrong || toleranceHz >= ifHz) return 'unclear';
	return right ? 'signal' : 'image';
}
