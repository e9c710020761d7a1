/** Screens of one set, in the order of the work. */
export const setScreens = ['card', 'sheet', 'bench', 'response', 'dial', 'tests', 'record'] as const;
export type SetScreen = (typeof setScreens)[number];

/** Screens of the page, each with its own address, so that Back works. */
export type Place =
	| { readonly screen: 'shelf' }
	| { readonly screen: 'new' }
	| { readonly screen: 'practice' }
	| {
			readonly screen: 'trouble';
			readonly trouble: string | null;
			/** As the address holds them. */
			readonly answers: string;
			/** The set beside whose work it is looked at. */
			readonly of: string | null;
	  }
	| { readonly screen: 'parts'; readonly part: string | null; readonly of: string | null }
	| { readonly screen: SetScreen; readonly set: string };

function placeOf(hash: string): Place {
	const [path = '', of] = hash.replace(/^#\/?/, '').split('?of=');
	const [screen, set, answers = ''] = path.split('/');
	const beside = of ? decodeURIComponent(of) : null;
	if (screen === 'trouble') return { screen, trouble: set || null, answers, of: beside };
	if (screen === 'parts') return { screen, part: set || null, of: beside };
	const own = setScreens.find((name) => name === screen);
	if (own && set) return { screen: own, set: decodeURIComponent(set) };
	return screen === 'new' || screen === 'practice' ? { screen } : { screen: 'shelf' };
}

export function addressOf(place: Place): string {
	if ('set' in place) return `#/${place.screen}/${encodeURIComponent(place.set)}`;
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
}

export const address = new Address();
