import { addressOf, type Place } from './address.svelte.ts';

const keptAs = 'peakwright/tour';
const demoSet = 'thistlemoor-tm-517';

/** One stop of the tour: where it leads, and what is said there. */
interface Stop {
	readonly place: Place;
	readonly words: string;
}

const stops: readonly Stop[] = [
	{
		place: { screen: 'card', set: demoSet },
		words:
			'The card holds what is known of a set. Only its supply must be known; what is missing is assumed, and shown as assumed.',
	},
	{
		place: { screen: 'sheet', set: demoSet },
		words: 'From the card comes the sheet: cautions, hook-up drawings and steps for this very set, here and on paper.',
	},
	{
		place: { screen: 'bench', set: demoSet },
		words:
			'On the bench one adjuster is worked at a time, behind gates. The demo set is simulated: with Begin a run you turn its screws on the page.',
	},
	{
		place: { screen: 'response', set: demoSet },
		words: 'Response reads the IF curve and says which adjuster is off, which way and how far.',
	},
	{
		place: { screen: 'dial', set: demoSet },
		words: 'Dial says who is at fault for a dial that is off, and which two acts put it right.',
	},
	{
		place: { screen: 'record', set: demoSet },
		words: 'Every reading is kept here, with the way home. The report for the owner is printed from it.',
	},
	{
		place: { screen: 'handbook', page: 'first-hour', section: null, find: '' },
		words: 'The handbook has all of it, with a search. Its first page goes through the first hour.',
	},
];

/** Browsers that keep nothing are offered the tour each time. */
function kept(): string | null {
	try {
		return localStorage.getItem(keptAs);
	} catch {
		return null;
	}
}

/** The two-minute tour of a first start: offered once, and never in the way. */
class Tour {
	isOffered = $state(kept() === null);
	/** The stop that is shown; null when the tour is not under way. */
	at: number | null = $state(null);

	readonly count = stops.length;

	/** What is said at the stop that is shown. */
	get words(): string {
		return this.at === null ? '' : (stops[this.at]?.words ?? '');
	}

	go(at: number): void {
		const stop = stops[at];
		if (!stop) {
			this.leave();
			return;
		}
		this.at = at;
		location.hash = addressOf(stop.place);
	}

	/** It is not offered again; the handbook begins it anew. */
	leave(): void {
		this.at = null;
		this.isOffered = false;
		try {
			localStorage.setItem(keptAs, 'seen');
		} catch {
			// A browser that keeps nothing offers it again.
		}
	}
}

export const tour = new Tour();
