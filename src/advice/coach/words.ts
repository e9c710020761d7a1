import type { CoachAdvice } from './turn.ts';

type Aim = 'maximum' | 'minimum';

/** What to do about a reading that cannot be trusted; `held`: readings rest while the program speaks. */
const distrustWords: Readonly<Record<'clipped' | 'no tone' | 'too weak' | 'held', string>> = {
	clipped: 'Too strong for the meter: less from the generator, or less volume.',
	'no tone': 'No tone is heard: is the generator on, modulated and on its frequency?',
	'too weak': 'Too weak to read: more from the generator.',
	held: 'Readings rest for a moment.',
};

/** The coach's word while a reading cannot be trusted. In a null a tone that is gone is what was sought. */
export function untrustedWords(trust: keyof typeof distrustWords, aim: Aim): string {
	if (aim === 'minimum' && (trust === 'no tone' || trust === 'too weak'))
		return 'Less than can be read: make the signal stronger and go on.';
	return distrustWords[trust];
}

/** What a person can look after when the level does not answer to the adjuster (common practice). */
const idleChecks =
	'is it the right adjuster, does the screw move its plates or core, is the signal so strong that AVC levels it, does the generator\u2019s lead hold?';

/** How far past the peak, in the words of a hand: tenths of the half width. */
function pastWords({ pastHalfWidths }: CoachAdvice): string {
	if (pastHalfWidths === null) return '';
	const tenths = pastHalfWidths.value.toFixed(1);
	return ` If that was the peak, it lies ${tenths} of a half width back.`;
}

/**
 * The coach's advice as a sentence.
 * @example coachWords({ kind: 'back', offDb: 0, bestDb: -20, trend: 'steady', toldDb: 0.3, pastHalfWidths: null }, 'maximum', 'T1') // => 'Back at the best: stop and withdraw the tool.'
 */
export function coachWords(advice: CoachAdvice, aim: Aim, name: string): string {
	const [off, target, back] = aim === 'maximum' ? ['Falling', 'best', 'rises'] : ['Rising', 'least', 'falls'];
	switch (advice.kind) {
		case 'begin':
			return `Hand off ${name}. The first reading is the reference.`;
		case 'first':
			return `Turn ${name} slowly.`;
		case 'best':
			return `The ${target} so far. Go on the same way.`;
		case 'near':
			return `Near the ${target}. Go on slowly.`;
		case 'past':
			return `${off}: turn ${name} the other way, back to the ${target}.${pastWords(advice)}`;
		case 'returning':
			return `It ${back} again: go on to the ${target}.`;
		case 'back':
			return `Back at the ${target}: stop and withdraw the tool.`;
		case 'nothing changes':
			return `Nothing changes. Check: ${idleChecks}`;
		case 'uncertain':
			return 'Too weak to tell a peak: more from the generator, or more volume.';
	}
}
