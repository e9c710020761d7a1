import type { OscillatorSide } from '#core/circuit/tracking-curve.ts';

/** Which of two peaks an oscillator was set on. */
export type PeakSide =
	/** The signal that belongs to the dial comes in. */
	| 'signal'
	/** The oscillator is on the other side: what comes in at the dial is the image. */
	| 'image'
	/** No two frequencies two IFs apart were heard, or neither lies near the dial. */
	| 'unclear';

/** A dial that is off by more than this share of the IF leaves it open which of the two is meant (chosen: half way is one IF). */
const nearShare = 0.75;

/**
 * Which peak it is, by the two frequencies that come in with the dial left alone; never by which is louder, which an antenna peaked on the image turns round.
 * They stand two IFs apart with the oscillator between them. Oscillator above and right: the lower one belongs to the dial. Wrong: the higher one.
 * @param heardHz all generator frequencies that come in, from one generator
 * @param apartHz how far their distance may be from two IFs
 */
export function peakSide(
	dialHz: number,
	ifHz: number,
	side: OscillatorSide,
	heardHz: readonly number[],
	apartHz: number,
): PeakSide {
	const sorted = [...heardHz].sort((one, other) => one - other);
	const sides = sorted.flatMap((lowHz, k) =>
		sorted.slice(k + 1).flatMap((highHz): PeakSide[] => {
			if (Math.abs(highHz - lowHz - 2 * ifHz) > apartHz) return [];
			const offs = [Math.abs(lowHz - dialHz), Math.abs(highHz - dialHz)] as const;
			if (Math.min(...offs) > nearShare * ifHz) return [];
			return [offs[0] < offs[1] === (side === 'above') ? 'signal' : 'image'];
		}),
	);
	const [first] = sides;
	return first !== undefined && sides.every((one) => one === first) ? first : 'unclear';
}
