import type { Language } from '#record/language.ts';
import { voltageWords } from '#record/quantity-words.ts';
import type { HostWork } from '#wire/host-messages.ts';

/** The latest reading of the instruments in words. */
export function readWords(reading: HostWork['reading'], { frequency }: Language): string {
	if (!reading) return 'No reading yet';
	const { frequencyHz, levelV, levelDb } = reading;
	const heard = levelDb === null ? 'nothing heard' : voltageWords(10 ** (levelDb / 20));
	return `${frequency(frequencyHz)} at ${voltageWords(levelV)}: ${heard}`;
}
