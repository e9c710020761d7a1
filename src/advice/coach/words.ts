import type { CoachAdvice } from './turn.ts';

type Aim = 'maximum' | 'minimum';

/** What to do about a reading that cannot be trusted; `held`: readings rest while the program speaks or a level settles, and where a machine without time lost some of the sound. */
const distrustWords: Readonly<Record<'clipped' | 'no tone' | 'too weak' | 'held', string>> = {
	clipped: 'Too strong for the meter: less from the generator, or less volume.',
	'no tone': 'No tone is heard: is the generator on, modulated and on its frequency?',
	'too weak': 'Too weak to read: more from the generator.',
	held: 'Readings rest for a moment.',
};

/**
 * The coach's word while a reading cannot be trusted. In a null a tone that is gone is what was sought; an oscillator that is far off its mark gives none at first;
 * a turn that took the tone away is to be taken back.
 * @param turned the adjuster in hand and what the coach sees of its turn; `null` while none is turned
 * @example untrustedWords('no tone', 'dial', null) // => 'Nothing comes in yet: make the signal stronger until the tone is heard, then turn.'
 */
export function untrustedWords(
	trust: keyof typeof distrustWords,
	aim: Aim | 'dial',
	turned: { readonly name: string; readonly coach: CoachAdvice } | null,
): string {
	const isGone = trust === 'no tone' || trust === 'too weak';
	if (isGone && aim === 'minimum') return 'Less than can be read: make the signal stronger and go on.';
	if (isGone && turned && (turned.coach.offDb ?? 0) > turned.coach.toldDb)
		return `The tone is lost: turn ${turned.name} back until it is heard again.`;
	if (trust === 'no tone' && aim === 'dial')
		return 'Nothing comes in yet: make the signal stronger until the tone is heard, then turn.';
	return distrustWords[trust];
}

/**
 * The coach's advice as a sentence.
 * @example coachWords({ kind: 'back', offDb: 0, bestDb: -20, trend: 'steady', toldDb: 0.3, risenDb: 4, pastHalfWidths: null }, 'maximum', 'T1') // => 'Back at the best: stop and withdraw the tool.'
 */
export function coachWords({ kind }: CoachAdvice, aim: Aim, name: string): string {
	const [off, target, back] = aim === 'maximum' ? ['Falling', 'best', 'rises'] : ['Rising', 'least', 'falls'];
	switch (kind) {
		case 'begin':
		case 'first':
			return `Turn ${name} slowly.`;
		case 'best':
			return `The ${target} so far. Go on the same way.`;
		case 'near':
			return `Near the ${target}. Go on slowly.`;
		case 'past':
			return `${off}: turn ${name} the other way, back to the ${target}.`;
		case 'wrong way':
			return `${off}: turn ${name} the other way.`;
		case 'returning':
			return `It ${back} again: go on to the ${target}.`;
		case 'back':
			return `Back at the ${target}: stop and withdraw the tool.`;
		case 'start':
			return 'Back where it began. Go on the same way.';
		case 'nothing changes':
			return 'Nothing changes.';
		case 'uncertain':
			return 'Too weak to tell a peak: more from the generator, or more volume.';
	}
}

/** What a person can look after when the level does not answer to the adjuster (common practice). */
const idleChecks =
	'Is it the right adjuster, does the screw move its plates or core, is the signal so strong that AVC levels it, does the generator\u2019s lead hold?';

/** A reading that has grown by so much asks for a weaker signal before AVC or the output stage flatten the peak (chosen). */
const muchRisenDb = 10;
const weakerWords = 'The reading has grown much: make the signal weaker, as weak as will serve.';

/** More on the coach's advice, for a second look: how far past the peak, what to check, or that the signal should be weaker; `null` where there is no more to say. */
export function coachDetail({ kind, pastHalfWidths, risenDb }: CoachAdvice): string | null {
	if (kind === 'nothing changes') return idleChecks;
	if (pastHalfWidths === null) return kind === 'best' && risenDb > muchRisenDb ? weakerWords : null;
	return `If that was the peak, it lies ${pastHalfWidths.value.toFixed(1)} of half its width back.`;
}

/** What the coach says aloud: the same, in few words; `null` where nothing needs to be said. */
export function spokenWords({ kind }: CoachAdvice, aim: Aim): string | null {
	const target = aim === 'maximum' ? 'best' : 'least';
	switch (kind) {
		case 'past':
			return `Past it. Turn back to the ${target}.`;
		case 'wrong way':
			return 'The other way.';
		case 'back':
			return 'Back. Stop.';
		case 'start':
			return 'Go on.';
		case 'nothing changes':
			return 'Nothing changes.';
		case 'uncertain':
			return 'Too weak.';
		default:
			return null;
	}
}
