import type { Left } from '#bench/sweep-hand.ts';
import type { HostWork } from '#wire/host-messages.ts';
import type { WorkControl } from './work-control.ts';

/** One piece of work that the host's bench does, and how far it is. */
export interface HostJob {
	readonly run: string;
	readonly kind: HostWork['kind'];
	readonly control: WorkControl;
	/** The share that is done, 0 to 1. */
	done: number;
	reading: HostWork['reading'];
	end: HostWork['end'];
	/** Why it was left, where the person did not say so. */
	why: string | null;
}

/** What the person reads of work that ended before it was done. */
export function endWords(end: Left): string {
	if (end.kind === 'stopped') return 'Left. What was read is kept.';
	if (end.kind === 'no signal')
		return 'No signal: look at the lead, the volume and the IF on the card. What was read is kept.';
	return `Ended: ${end.words}. What was read is kept.`;
}
