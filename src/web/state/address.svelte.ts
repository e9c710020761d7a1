import { decoded } from './decoded.ts';

/** Screens of one set, in the order of the work. */
export const setScreens = ['card', 'photos', 'sheet', 'bench', 'response', 'dial', 'tests', 'record'] as const;
export type SetScreen = (typeof setScreens)[number];

/** Screens of the page, each with its own address, so that Back works. */
export type Place =
	| { readonly screen: 'shelf' }
	| { readonly screen: 'new' }
	| {
			readonly screen: 'practice';
			/** A lesson by its short name. */
			readonly lesson: string | null;
	  }
	| { readonly screen: 'instruments' }
	| {
			readonly screen: 'trouble';
			readonly trouble: string | null;
			/** As the address holds them. */
			readonly answers: string;
			/** The set beside whose work it is looked at. */
			readonly of: string | null;
	  }
	| { readonly screen: 'parts'; readonly part: string | null; readonly of: string | null }
	| {
			readonly screen: 'handbook';
			readonly page: string | null;
			readonly section: string | null;
			/** What is looked for in it; empty when nothing is. */
			readonly find: string;
	  }
	| { readonly screen: SetScreen; readonly set: string };

function handbookPlace(path: string): Place {
	const [where = '', find = ''] = path.split('?find=');
	const [, page, section] = where.split('/');
	return { screen: 'handbook', page: page || null, section: section ? decoded(section) : null, find: decoded(find) };
}

function placeOf(hash: string): Place {
	if (/^#\/?handbook\b/.test(hash)) return handbookPlace(hash.replace(/^#\/?/, ''));
	const [path = '', of] = hash.replace(/^#\/?/, '').split('?of=');
	const [screen, set, answers = ''] = path.split('/');
	const beside = of ? decoded(of) : null;
	if (screen === 'trouble') return { screen, trouble: set || null, answers, of: beside };
	if (screen === 'parts') return { screen, part: set || null, of: beside };
	const own = setScreens.find((name) => name === screen);
	if (own && set) return { screen: own, set: decoded(set) };
	if (screen === 'practice') return { screen, lesson: set || null };
	return screen === 'new' || screen === 'instruments' ? { screen } : { screen: 'shelf' };
}

export function addressOf(place: Place): string {
	if ('set' in place) return `#/${place.screen}/${encodeURIComponent(place.set)}`;
	if (place.screen === 'handbook') {
		const path = ['#', 'handbook', ...[place.page, place.section].filter((piece) => piece)].join('/');
		return place.find === '' ? path : `${path}?find=${encodeURIComponent(place.find)}`;
	}
	if (place.screen === 'practice' && place.lesson !== null) return `#/practice/${encodeURIComponent(place.lesson)}`;
	if (!('of' in place)) return `#/${place.screen}`;
	const pieces = place.screen === 'parts' ? [place.part] : [place.trouble, place.answers];
	const path = ['#', place.screen, ...pieces.filter((piece) => piece)].join('/');
	return place.of === null ? path : `${path}?of=${encodeURIComponent(place.of)}`;
}

/** The set that a place is about, or is looked at beside; `null` when there is none. */
export function setOf(place: Place): string | null {
	return 'set' in place ? place.set : 'of' in place ? place.of : null;
}

class Address {
	place: Place = $state(placeOf(location.hash));
	constructor() {
		addEventListener('hashchange', () => {
			this.place = placeOf(location.hash);
		});
	}
	go(place: Place): void {
		location.hash = addressOf(place);
	}
	/** Goes on in the same place: Back leads to what was before it. */
	amend(place: Place): void {
		history.replaceState(null, '', addressOf(place));
		this.place = place;
	}
}

export const address = new Address();
