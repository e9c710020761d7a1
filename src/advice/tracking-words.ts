import type { TrackingParts } from '#core/circuit/tracking-parts.ts';
import { capacitanceWords } from '#record/quantity-words.ts';

/** Why a tracking design cannot be made, and what to give instead. */
export function trackingRefusalWords({ why, trimmerF }: Extract<TrackingParts, { kind: 'refused' }>): string {
	switch (why) {
		case 'below the IF':
			return 'the oscillator cannot lie below a signal that is itself below the IF: give a band above the IF, or the oscillator above';
		case 'tie points':
			return 'no oscillator goes through these tie points and stays real over the whole band: give tie points farther apart, inside the band';
		case 'gang too small':
			return 'the gang does not reach the high end of the band even fully open: give less strays, a larger gang or a narrower band';
		case 'padder':
			return 'these tie points ask for a padder below nothing: give tie points farther apart, or less strays at the gang';
		case 'trimmer':
			return `the trimmer would have to be ${capacitanceWords(trimmerF ?? 0)}: give more strays across the signal section, or the trimmer at the other place`;
	}
}
